package dev.pawl.engine.proof;

import dev.pawl.engine.Sampling;
import org.junit.jupiter.api.Test;

/**
 * Rules and traces on which the engine once differed from the reference evaluator, each shrunk to what matters;
 * {@link TextCase#judge} compares the two.
 */
class CounterexamplesTest {

  @Test
  void sinceWithUnknownOperandAndBorderlineAnchorSettlesAtTheSecondMoment() {
    TextCase.judge("rule R \"\" basis practice tolerance 2 always a since x > 0", "0 x 1; 1 b 1", 1);
  }

  @Test
  void meanOfAValueThatChangesJustAfterATime() {
    TextCase.judge("rule R \"\" basis practice always mean(count(start) in last 1 ns) over 2 ns > 0.5", "0 b 0", 6);
  }

  @Test
  void speedBeginsAtAFlagThatRisesWhileTheOtherIsLost() {
    TextCase.judge("rule R \"\" basis practice always speed(a, b, 1 m) <= 1 m/s",
        "0 a 0; 0 b 0; 1 a 1; 1 b ?; 2 b 0; 3 b 1", 3);
  }

  @Test
  void trainThatMayHaveLeftWhileAnotherEnteredLeavesTheCountOpen() {
    TextCase.judge("zone z enter rises(a) leave rises(b) holds 1 starts with 0\nrule R \"\" basis practice always "
        + "occupied(z)",
        "0 a 0; 0 b 0; 1 a 1; 1 b ?", 2);
  }

  @Test
  void latestOfTheResponsesBeforeALimitMakesTheMargin() {
    TextCase.judge("rule R \"\" basis practice resolution 1 ns when not rises(a) must d before (true for 2 ns)",
        "0 a 0; 0 d 0; 1 a 1; 1 d 1", 42);
  }

  @Test
  void miscountsThatFollowEachOtherAreOverAfterTheLast() {
    TextCase.judge("""
        zone z enter falls(c) then falls(c) and not d leave falls(d) then falls(a) holds 2
        rule R "" basis practice when miscounts(z) for 1 ns must d""", "0 a 0; 0 b 0; 0 c 1; 0 d 0; 1 c 0; 2 b 1", 3);
  }

  @Test
  void aPossibleTriggerWhoseStayMayStillBeOverIsCancelledUpToThen() {
    TextCase.judgeRule("resolution 3 ns when c unless d must (a or not a) after 1 ns within 1 ns, and stay so until c",
        "0 c 1; 0 d 0; 0 a 0; 1 c ?; 4 c 1; 6 d 1", 8);
  }

  @Test
  void aFallWithItsReleaseIsNoBreakWhereOnlyUnlessIsSampled() {
    TextCase.judgeRule("when d unless b must a, and stay so until c",
        "0 a 1; 0 b 0; 0 c 0; 0 d 0; 1 d ?; 2 d 0; 2 a 0; 2 c 1", 2, Sampling.of(0, 2));
  }

  @Test
  void whatIsKnownOfTheMomentBeforeALateBeginningStaysKnown() {
    Sampling soon = Sampling.NONE.withFirstValues(1);
    String events = "0 a 0; 1 a 1; 2 b 0";
    String passes = "(falls(rises(a)) or rises(b))";
    TextCase.judgeRule("never (" + passes + " in last 1 ns)", events, 3, soon);
    TextCase.judgeRule("always ((not " + passes + ") for 1 ns)", events, 3, soon);
  }
}
