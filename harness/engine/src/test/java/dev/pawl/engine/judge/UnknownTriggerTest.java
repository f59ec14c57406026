package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.Verdict;
import dev.pawl.engine.reference.Judgement;
import org.junit.jupiter.api.Test;

/** A trigger that may have happened is judged as if it had, at any moment of the stretch in which it is unknown. */
class UnknownTriggerTest {
  private static final String KNOWN = "0 a 0; 0 b 0; 0 c 0; 0 d 0; ";
  private static final String WITHIN = "when rises(a) must b within 5 ns";

  private static void isUndecided(String rule, String events) {
    Judgement.OfRule judged = judgeRule(rule, KNOWN + events, 60);
    assertThat(judged.obligations().unknownTriggers()).isEqualTo(1);
    assertThat(judged.obligations().verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(judged.findings()).singleElement().matches(finding -> finding.kind() == Kind.UNKNOWN_TRIGGER
        && finding.trigger() == 10);
  }

  private static void countsNothing(String rule, String events) {
    assertThat(judgeRule(rule, KNOWN + events, 60).obligations().unknownTriggers()).isZero();
  }

  @Test
  void aStopThatWasReadBadAndThenPressedIsNotHeldByWhatNeverStopped() {
    isUndecided(WITHIN, "10 a ?; 20 a 1");
    isUndecided(WITHIN, "10 a ?; 20 a 1; 21 b 1");
  }

  @Test
  void whatIsMetFromEachMomentCountsNothing() {
    countsNothing(WITHIN, "10 a ?; 12 a 1; 15 b 1");
    countsNothing(WITHIN, "5 b 1; 10 a ?; 30 a 0");
    countsNothing("when rises(a) must b throughout 5 ns", "5 b 1; 10 a ?; 20 a 0; 26 b 0");
    countsNothing("when rises(a) must b before c", "10 a ?; 20 a 0; 25 b 1; 30 c 1");
  }

  @Test
  void eachFormIsAskedFromEachMoment() {
    isUndecided("when rises(a) must b", "5 b 1; 10 a ?; 15 b 0; 16 b 1; 20 a 0");
    isUndecided("when rises(a) must b throughout 5 ns", "5 b 1; 10 a ?; 20 a 0; 24 b 0");
    isUndecided("when rises(a) must b before c", "10 a ?; 20 a 0; 25 c 1; 30 b 1");
    isUndecided("when rises(a) must b, and stay so until c", "5 b 1; 10 a ?; 20 a 0; 30 b 0; 40 c 1");
  }

  @Test
  void untilAllThatTheRuleReadsIsLoggedNothingPossiblyHappens() {
    assertThat(judgeRule(WITHIN, "0 b 0; 10 a 0", 60).obligations().unknownTriggers()).isZero();
  }
}
