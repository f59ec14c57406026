package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.Margin;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.reference.Judgement;
import org.junit.jupiter.api.Test;

/** What becomes of an obligation whose response has come and has to stay. */
class StayTest {
  private static final String UNTIL = "when rises(a) unless d must b within 3 ns, and stay so until c";
  private static final String FOR = "when rises(a) unless d must b within 3 ns, and stay so for 5 ns";
  private static final String ALL_OFF = "0 a 0; 0 b 0; 0 c 0; 0 d 0; 1 a 1; ";

  private static final Obligations MET = new Obligations(1, 0, 0, 0, 0, 0, 0);
  private static final Obligations MISSED = new Obligations(0, 1, 0, 0, 0, 0, 0);
  private static final Obligations OPEN = new Obligations(0, 0, 1, 0, 0, 0, 0);
  private static final Obligations BORDERLINE = new Obligations(0, 0, 0, 1, 0, 0, 0);
  private static final Obligations UNKNOWN = new Obligations(0, 0, 0, 0, 1, 0, 0);
  private static final Obligations CANCELLED = new Obligations(0, 0, 0, 0, 0, 1, 0);

  private static void gives(Obligations obligations, String rule, String events) {
    assertThat(judgeRule(rule, ALL_OFF + events, 20).obligations()).isEqualTo(obligations);
  }

  @Test
  void untilReleasedItHasToBeKnown() {
    gives(MET, UNTIL, "2 b 1; 7 c 1; 9 b 0");
    gives(UNKNOWN, UNTIL, "2 b 1; 4 b ?; 5 b 1; 7 c 1");
  }

  @Test
  void atTheReleaseItIsNotAskedFor() {
    gives(MET, UNTIL, "2 b 1; 7 b ?; 7 c 1");
    gives(MET, UNTIL, "2 b 1; 7 b 0; 7 c 1");
  }

  @Test
  void aFallBeforeTheReleaseIsUndecidedOnlyWhereTheReleaseMayHaveCome() {
    gives(MISSED, UNTIL, "2 b 1; 7 b 0; 9 c 1");
    gives(UNKNOWN, UNTIL, "2 b 1; 4 c ?; 5 c 0; 7 b 0; 9 c 1");
    gives(MISSED, UNTIL, "1 c ?; 2 c 0; 3 b 1; 7 b 0; 9 c 1");
  }

  private static Obligations judged(String rule, String atFirst, String events) {
    return judgeRule(rule, atFirst + "; 5 a 1; " + events, 30).obligations();
  }

  /** The release lets go in its own image; what it ended before, in the trigger's image, it does not end again. */
  @Test
  void ofOneImageTheOrderIsKnown() {
    String rule = "resolution 3 ns when rises(a) must b or d, and stay so until c";

    assertThat(judged(rule, "0 a 0; 0 b 1; 0 c 0; 0 d 0", "15 b 0; 15 c 1")).isEqualTo(MET);
    assertThat(judged(rule, "0 a 0; 0 b 1; 0 c 1; 0 d 0", "5 c 0; 15 b 0")).isEqualTo(MISSED);
    assertThat(judged(rule, "0 a 0; 0 b 1; 0 c 1; 0 d 0; 4 c 0", "15 b 0")).isEqualTo(BORDERLINE);
    assertThat(judged(rule.replace(" or d", ""), "0 a 0; 0 b 1; 0 c 0", "13 b 0; 14 b ?; 15 b 0; 15 c 1"))
        .isEqualTo(BORDERLINE);
  }

  /** One goes as the other comes: it may never have been false. */
  @Test
  void aBriefFallOfSeveralSignalsMayBeNone() {
    for (String form : new String[] {"throughout 12 ns", ", and stay so for 12 ns", ", and stay so until c"}) {
      String rule = "resolution 3 ns when rises(a) must b or d " + form;

      assertThat(judged(rule, "0 a 0; 0 b 1; 0 c 0; 0 d 0", "10 b 0; 12 d 1; 25 c 1")).isEqualTo(BORDERLINE);
      assertThat(judged(rule, "0 a 0; 0 b 1; 0 c 0; 0 d 0", "10 b 0; 16 d 1; 25 c 1")).isEqualTo(MISSED);
    }
  }

  /** It may have come again with the other one still there, and have been no event. */
  @Test
  void aTriggerOfSeveralSignalsThatComesAgainTooSoonMayBeNone() {
    String rule = "resolution 3 ns when rises(b or d) must c within 2 ns";

    assertThat(judgeRule(rule, "0 b 1; 0 c 0; 0 d 0; 6 b 0; 8 d 1", 40).obligations())
        .isEqualTo(new Obligations(0, 0, 0, 0, 0, 0, 1));
    assertThat(judgeRule(rule, "0 b 1; 0 c 0; 0 d 0; 6 b 0; 15 d 1", 40).obligations()).isEqualTo(MISSED);
    assertThat(judgeRule(rule, "0 b 1; 0 c 0; 0 d 0; 8 d 1; 9 b 0", 40).obligations())
        .isEqualTo(new Obligations(0, 0, 0, 0, 0, 0, 1));
  }

  @Test
  void withoutReleaseTheEndOfTheTraceDecides() {
    gives(MET, UNTIL, "2 b 1");
    gives(UNKNOWN, UNTIL, "2 b 1; 4 b ?; 5 b 1");
    gives(UNKNOWN, UNTIL, "2 b 1; 20 b ?");
  }

  @Test
  void forADurationItMayFallOnlyAfterIt() {
    gives(MISSED, FOR, "2 b 1; 7 b 0");
    gives(MET, FOR, "2 b 1; 8 b 0");
    gives(UNKNOWN, FOR, "2 b 1; 4 b ?; 5 b 1");
  }

  @Test
  void aFallSaysHowMuchWasMissing() {
    Judgement.OfRule judged = judgeRule(FOR, ALL_OFF + "2 b 1; 5 b 0", 20);

    assertThat(judged.margins()).containsExactly(new Margin(-2e-9, "s", 5, 1, false));
    assertThat(judged.findings()).containsExactly(new Judgement.Found(Kind.NOT_SUSTAINED, 1, 5, false, 7));
  }

  @Test
  void aFallCloserToTheDeadlineThanTheResolutionIsBorderline() {
    gives(MISSED, "resolution 2 ns " + FOR, "1 b 1; 4 b 0");
    gives(BORDERLINE, "resolution 2 ns " + FOR, "1 b 1; 5 b 0");
    gives(BORDERLINE, "resolution 2 ns " + FOR, "1 b 1; 7 b 0");
    gives(MET, "resolution 2 ns " + FOR, "1 b 1; 8 b 0");
  }

  @Test
  void aResponseThatCameCloseToItsDeadlineIsBorderlineEvenIfItStays() {
    gives(BORDERLINE, "resolution 2 ns " + FOR, "4 b 1");
    gives(BORDERLINE, "resolution 2 ns " + UNTIL, "4 b 1; 9 c 1");
    gives(MISSED, "resolution 2 ns " + FOR, "4 b 1; 6 b 0");
  }

  /** What was in time may be logged up to the resolution after its deadline: before that, nothing is decided. */
  @Test
  void aStayThatEndsWithTheTraceIsDecided() {
    assertThat(judgeRule(FOR, ALL_OFF + "2 b 1", 7).obligations()).isEqualTo(MET);
    assertThat(judgeRule("resolution 2 ns " + FOR, ALL_OFF + "1 b 1", 6).obligations()).isEqualTo(OPEN);
    assertThat(judgeRule("resolution 2 ns " + FOR, ALL_OFF + "1 b 1", 8).obligations()).isEqualTo(MET);
    assertThat(judgeRule(FOR, ALL_OFF + "2 b 1", 6).obligations()).isEqualTo(OPEN);
  }

  @Test
  void aStayCanBeCancelled() {
    gives(CANCELLED, FOR, "2 b 1; 4 d 1; 5 b 0");
    gives(CANCELLED, UNTIL, "2 b 1; 4 d 1; 5 b 0");
    gives(new Obligations(0, 0, 0, 0, 0, 2, 0), FOR, "2 b 1; 3 a 0; 4 a 1; 5 d 1; 6 b 0");
  }
}
