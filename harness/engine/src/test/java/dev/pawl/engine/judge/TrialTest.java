package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Tried;
import dev.pawl.engine.Verdict;
import dev.pawl.engine.reference.Judgement;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

/**
 * A pass has to have been able to fail: what a rule says tries it must have happened. {@code a} releases, {@code b}
 * must be shut, {@code c} asks.
 */
class TrialTest {
  private static final String GATES = "when rises(a) must b tried by c";
  private static final Obligations NONE = new Obligations(0, 0, 0, 0, 0, 0, 0);

  private static Judgement.OfRule judged(String rule, String events) {
    return judgeRule(rule, "0 a 0; 0 b 0; 0 c 0; 0 d 0; " + events, 60);
  }

  private static Verdict verdict(Judgement.OfRule rule) {
    return rule.obligations().verdict(rule.tried());
  }

  private static Tried tried(long times, long first) {
    return new Tried(times, OptionalLong.of(first));
  }

  @Test
  void anInterlockThatNobodyAskedIsNotExercisedHoweverOftenItWasMet() {
    Judgement.OfRule rule = judged(GATES, "5 b 1; 10 c 1; 11 a 1");

    assertThat(rule.obligations()).isEqualTo(new Obligations(1, 0, 0, 0, 0, 0, 0));
    assertThat(rule.tried()).containsExactly(new Tried(0, OptionalLong.empty()));
    assertThat(verdict(rule)).isEqualTo(Verdict.NOT_EXERCISED);
  }

  @Test
  void oneThatRefusedIsHeldWithoutAnObligation() {
    Judgement.OfRule rule = judged(GATES, "10 c 1; 12 c 0; 14 c 1");

    assertThat(rule.obligations()).isEqualTo(NONE);
    assertThat(rule.tried()).containsExactly(tried(2, 10));
    assertThat(verdict(rule)).isEqualTo(Verdict.HELD);
  }

  @Test
  void oneThatDidNotRefuseIsBroken() {
    assertThat(verdict(judged(GATES, "10 c 1; 11 a 1"))).isEqualTo(Verdict.BROKEN);
  }

  @Test
  void eachTrialHasToOccur() {
    String rule = "when rises(a) must b and d tried by c given d tried by c given b";

    assertThat(verdict(judged(rule, "10 b 1; 11 c 1"))).isEqualTo(Verdict.NOT_EXERCISED);
    assertThat(verdict(judged(rule, "10 b 1; 11 c 1; 20 b 0; 20 c 0; 21 d 1; 22 c 1"))).isEqualTo(Verdict.HELD);
  }

  @Test
  void whatIsNotKnownTriesNothing() {
    assertThat(judged(GATES, "9 b ?; 10 c 1").tried()).containsExactly(new Tried(0, OptionalLong.empty()));
    assertThat(judged("when rises(a) must b tried by c given d", "9 d ?; 10 c 1").tried())
        .containsExactly(new Tried(0, OptionalLong.empty()));
  }

  @Test
  void aTrialCountsFromTheRulesBeginningOnAndNotInTheLastInstant() {
    assertThat(judgeRule(GATES, "0 a 0; 0 c 0; 5 c 1; 6 c 0; 7 b 0; 8 c 1; 60 d 0", 60).tried())
        .containsExactly(tried(1, 8));
    assertThat(judged(GATES, "60 c 1").tried()).containsExactly(new Tried(0, OptionalLong.empty()));
  }

  @Test
  void scopesHoldForTrialsToo() {
    assertThat(judged("when rises(a) while d must b tried by c", "10 c 1; 11 c 0; 12 d 1; 13 c 1").tried())
        .containsExactly(tried(1, 13));
    assertThat(judged("when rises(a) unless d must b tried by c", "5 d 1; 10 c 1; 11 c 0; 12 d 0; 13 c 1").tried())
        .containsExactly(tried(1, 13));
  }

  @Test
  void whatHasToStaySoIsTriedWhileItHasTo() {
    String rule = "when rises(a) must not b within 9 ns, and stay so until rises(d) stay tried by c";

    assertThat(verdict(judged(rule, "5 b 1; 10 a 1; 12 b 0; 20 d 1; 25 c 1"))).isEqualTo(Verdict.NOT_EXERCISED);
    assertThat(judged(rule, "5 b 1; 10 a 1; 12 b 0; 15 c 1; 20 d 1").tried()).containsExactly(tried(1, 15));
    assertThat(verdict(judged(rule, "5 b 1; 10 a 1; 12 b 0; 15 c 1; 20 d 1"))).isEqualTo(Verdict.HELD);
  }

  @Test
  void whatWasSoAlreadyIsNotTriedByWhatAsksAfterwards() {
    Judgement.OfRule rule = judged("when rises(a) must not b within 9 ns, and stay so until rises(d) stay tried by c",
        "10 a 1; 15 c 1; 20 d 1");

    assertThat(rule.obligations()).isEqualTo(new Obligations(0, 0, 0, 0, 0, 0, 0, 1));
    assertThat(verdict(rule)).isEqualTo(Verdict.NOT_EXERCISED);
  }

  @Test
  void theTriggerItselfMayBeTheChallenge() {
    String rule = "when rises(a) must b throughout 5 ns tried by trigger";

    assertThat(judged(rule, "5 b 1; 10 a 1").tried()).containsExactly(new Tried(1, OptionalLong.empty()));
    assertThat(verdict(judged(rule, "5 b 1; 10 a 1"))).isEqualTo(Verdict.HELD);
    assertThat(verdict(judged(rule, "5 b 1"))).isEqualTo(Verdict.NOT_EXERCISED);
  }

  @Test
  void whatMayNeverBeHasToHaveBeenAskedFor() {
    assertThat(verdict(judged("never a and b tried by c given b", "10 c 1"))).isEqualTo(Verdict.NOT_EXERCISED);
    assertThat(verdict(judged("never a and b tried by c given b", "9 b 1; 10 c 1"))).isEqualTo(Verdict.HELD);
  }
}
