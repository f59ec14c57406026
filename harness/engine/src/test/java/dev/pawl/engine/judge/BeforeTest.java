package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.Margin;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.reference.Judgement;
import org.junit.jupiter.api.Test;

/**
 * What becomes of {@code must b before c} where both come close to each other, get lost, or the obligation is cancelled
 * in between.
 */
class BeforeTest {
  private static final String RULE = "resolution 2 ns when rises(a) unless d must b before c";
  private static final String EXACT = "when rises(a) unless d must b before c";
  private static final String ALL_OFF = "0 a 0; 0 b 0; 0 c 0; 0 d 0; 1 a 1; ";

  private static final Obligations MET = new Obligations(1, 0, 0, 0, 0, 0, 0);
  private static final Obligations MISSED = new Obligations(0, 1, 0, 0, 0, 0, 0);
  private static final Obligations BORDERLINE = new Obligations(0, 0, 0, 1, 0, 0, 0);
  private static final Obligations UNKNOWN = new Obligations(0, 0, 0, 0, 1, 0, 0);
  private static final Obligations CANCELLED = new Obligations(0, 0, 0, 0, 0, 1, 0);

  private static void gives(Judgement.OfRule judged, Obligations obligations, double nanoseconds, long time) {
    assertThat(judged.obligations()).isEqualTo(obligations);
    assertThat(judged.margins()).containsExactly(new Margin(nanoseconds / 1e9, "s", time, 1, false));
  }

  @Test
  void anOrderByLessThanTheResolutionIsBorderlineEitherWay() {
    Judgement.OfRule first = judgeRule(RULE, ALL_OFF + "5 b 1; 6 c 1", 20);
    gives(first, BORDERLINE, 1, 6);
    assertThat(first.findings()).containsExactly(new Judgement.Found(Kind.BORDERLINE, 1, 6, false, 6));

    Judgement.OfRule second = judgeRule(RULE, ALL_OFF + "5 c 1; 6 b 1", 20);
    gives(second, BORDERLINE, -1, 6);
    assertThat(second.findings()).containsExactly(new Judgement.Found(Kind.BORDERLINE, 1, 6, false, 5));

    gives(judgeRule(RULE, ALL_OFF + "5 b 1; 5 c 1", 20), BORDERLINE, 0, 5);
  }

  @Test
  void anOrderByTheResolutionIsBeyondDoubt() {
    gives(judgeRule(RULE, ALL_OFF + "5 b 1; 7 c 1", 20), MET, 2, 7);
    gives(judgeRule(RULE, ALL_OFF + "5 c 1; 7 b 1", 20), MISSED, -2, 7);
  }

  @Test
  void aTieMeetsWithoutResolution() {
    gives(judgeRule(EXACT, ALL_OFF + "5 b 1; 5 c 1", 20), MET, 0, 5);
  }

  @Test
  void isCancelledWhileItWaitsForEither() {
    assertThat(judgeRule(RULE, ALL_OFF + "6 d 1; 8 c 1", 20).obligations()).isEqualTo(CANCELLED);
  }

  @Test
  void isCancelledWhileTheOtherMayStillComeTooClose() {
    assertThat(judgeRule(RULE, ALL_OFF + "5 b 1; 6 d 1", 20).obligations()).isEqualTo(CANCELLED);
    assertThat(judgeRule(RULE, ALL_OFF + "5 b 1; 6 d 1; 6 c 1", 20).obligations().borderline()).isEqualTo(1);
  }

  /** The limit came first: whether that was before what cancels is certain only from the resolution on. */
  @Test
  void isCancelledWhereTheLimitDidNotComeBefore() {
    assertThat(judgeRule(RULE, ALL_OFF + "5 c 1; 5 d 1", 20).obligations()).isEqualTo(CANCELLED);
    assertThat(judgeRule(RULE, ALL_OFF + "5 d 1; 7 c 1", 20).obligations()).isEqualTo(CANCELLED);
    assertThat(judgeRule(RULE, ALL_OFF + "5 c 1; 6 d 1; 6 b 1", 20).obligations().borderline()).isEqualTo(1);
    assertThat(judgeRule(RULE, ALL_OFF + "5 d 1; 6 c 1", 20).obligations().borderline()).isEqualTo(1);
    assertThat(judgeRule(RULE, ALL_OFF + "5 c 1; 7 d 1", 20).obligations().missed()).isEqualTo(1);
  }

  /** One waits for either, the other had one of them a moment ago. */
  @Test
  void allThatWaitAreCancelledTogether() {
    String rule = RULE.replace("2 ns", "4 ns");
    Obligations two = new Obligations(0, 0, 0, 0, 0, 2, 0);

    assertThat(judgeRule(rule, ALL_OFF + "5 b 1; 5 a 0; 6 b 0; 6 a 1; 7 d 1", 20).obligations()).isEqualTo(two);
    assertThat(judgeRule(rule, ALL_OFF + "5 c 1; 5 a 0; 6 c 0; 6 a 1; 7 d 1", 20).obligations())
        .isEqualTo(new Obligations(0, 0, 0, 1, 0, 1, 0));
  }

  /** The limit's place makes the margin, whatever becomes of the obligation. */
  @Test
  void aLimitThatWasLostCloseToTheResponseLeavesItUndecidedButKeepsTheMargin() {
    gives(judgeRule(RULE, ALL_OFF + "5 b 1; 6 c ?; 7 c 0; 16 c 1", 20), UNKNOWN, 11, 16);
  }

  /** Unknown only at the trigger's own moment: an edge of a signal that is on at the start. */
  @Test
  void theLimitIsNotAskedForAtTheTrigger() {
    String limitUnknownAtTheTrigger = "0 b 0; 0 c 1; 5 b 1; 7 c 0; 9 c 1";
    String exact = "when start must b before rises(c)";

    assertThat(judgeRule(exact, limitUnknownAtTheTrigger, 20).obligations()).isEqualTo(MET);
    assertThat(judgeRule("resolution 2 ns " + exact, limitUnknownAtTheTrigger, 20).obligations()).isEqualTo(MET);
  }

  @Test
  void aLimitUnknownAfterTheTriggerLeavesAnExactOrderUndecided() {
    assertThat(judgeRule(EXACT, ALL_OFF + "2 c ?; 3 c 0; 5 b 1; 9 c 1", 20).obligations()).isEqualTo(UNKNOWN);
  }

  @Test
  void aResponseUnknownBeforeTheLimitLeavesAMissUndecided() {
    assertThat(judgeRule(EXACT, ALL_OFF + "2 b ?; 3 b 0; 5 c 1; 9 b 1", 20).obligations()).isEqualTo(UNKNOWN);
  }
}
