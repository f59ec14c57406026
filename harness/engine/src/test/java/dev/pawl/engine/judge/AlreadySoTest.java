package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.engine.reference.Judgement;
import org.junit.jupiter.api.Test;

/** A demand that was so before its trigger has shown nothing: nobody saw it become so. */
class AlreadySoTest {
  private static final String RULE = "when rises(a) must b within 9 ns";
  private static final Obligations ALREADY_SO = new Obligations(0, 0, 0, 0, 0, 0, 0, 1);
  private static final Obligations MET = new Obligations(1, 0, 0, 0, 0, 0, 0);

  private static Judgement.OfRule judged(String rule, String events) {
    return judgeRule(rule, "0 a 0; 0 b 0; 0 c 0; 0 d 0; " + events, 60);
  }

  @Test
  void theBrakeThatWasShutBeforeTheStopShowsNothing() {
    Judgement.OfRule rule = judged(RULE, "10 b 1; 20 a 1; 40 b 0");

    assertThat(rule.obligations()).isEqualTo(ALREADY_SO);
    assertThat(rule.obligations().verdict()).isEqualTo(Verdict.NOT_EXERCISED);
    assertThat(rule.margins()).isEmpty();
  }

  @Test
  void whatWasSoFromTheStartOnMayAlwaysHaveBeen() {
    assertThat(judgeRule("when a must b within 9 ns", "0 a 0; 0 b 1; 5 a 1", 60).obligations()).isEqualTo(ALREADY_SO);
  }

  @Test
  void anotherStopAtWhichItHadToShutHoldsTheRule() {
    Judgement.OfRule rule = judged(RULE, "10 b 1; 20 a 1; 21 a 0; 22 b 0; 30 a 1; 34 b 1");

    assertThat(rule.obligations()).isEqualTo(new Obligations(1, 0, 0, 0, 0, 0, 0, 1));
    assertThat(rule.obligations().verdict()).isEqualTo(Verdict.HELD);
    assertThat(rule.margins()).singleElement().matches(margin -> margin.time() == 34);
  }

  @Test
  void aResponseInTheImageOfItsTriggerIsOne() {
    assertThat(judged(RULE, "20 a 1; 20 b 1").obligations()).isEqualTo(MET);
  }

  @Test
  void lessThanTheResolutionBeforeTheTriggerItMayHaveAnsweredIt() {
    assertThat(judged("resolution 4 ns " + RULE, "17 b 1; 20 a 1").obligations()).isEqualTo(MET);
    assertThat(judged("resolution 4 ns " + RULE, "16 b 1; 20 a 1").obligations()).isEqualTo(ALREADY_SO);
  }

  @Test
  void whatWasOnlyUnknownBeforeMayHaveBeenSo() {
    assertThat(judged(RULE, "5 b 1; 18 b ?; 20 a 1; 24 b 1").obligations()).isEqualTo(ALREADY_SO);
  }

  @Test
  void untilTheWindowOpensItMayBecomeOtherwise() {
    String later = "when rises(a) must b after 5 ns within 9 ns";
    assertThat(judged(later, "10 b 1; 20 a 1").obligations()).isEqualTo(ALREADY_SO);
    assertThat(judged(later, "10 b 1; 20 a 1; 22 b 0; 24 b 1").obligations()).isEqualTo(MET);
  }

  @Test
  void whatWasSoAndStaysSoShowsNothingButMayStillFall() {
    String stay = RULE + ", and stay so for 10 ns";
    assertThat(judged(stay, "10 b 1; 20 a 1").obligations()).isEqualTo(ALREADY_SO);
    assertThat(judged(stay, "10 b 1; 20 a 1; 25 b 0").obligations()).isEqualTo(new Obligations(0, 1, 0, 0, 0, 0, 0));
    assertThat(judged(RULE + ", and stay so until c", "10 b 1; 20 a 1; 40 c 1").obligations()).isEqualTo(ALREADY_SO);
  }
}
