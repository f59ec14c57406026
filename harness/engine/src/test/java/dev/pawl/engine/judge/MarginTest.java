package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static dev.pawl.engine.proof.TextCase.spread;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.Margin;
import dev.pawl.engine.MarginSpread;
import dev.pawl.engine.reference.Judgement;
import org.junit.jupiter.api.Test;

/** Where a margin is taken, and at which moment a condition that is true for one moment only stops being so. */
class MarginTest {
  private static final String BAND = "always x > 0 and x < 10 while a";

  /** The number itself does not move when the rule begins to apply. */
  @Test
  void aMarginIsTakenWhereTheRuleBeginsToApply() {
    assertThat(judgeRule(BAND, "0 a 0; 0 x 5; 3 a 1; 6 a 0; 8 x 1", 20).margins())
        .containsExactly(new Margin(5, "", 3, 3, false));
  }

  @Test
  void aMarginIsTakenWhereTheNumberMoves() {
    assertThat(judgeRule(BAND, "0 a 0; 0 x 5; 3 a 1; 5 x 9; 7 x 6", 20).margins())
        .containsExactly(new Margin(1, "", 5, 3, false));
  }

  @Test
  void theLeastOfAWindowIsTakenFromItsOpeningOn() {
    String rule = "when rises(a) must x > 0 after 2 ns throughout 5 ns";

    assertThat(judgeRule(rule, "0 a 0; 0 x 4; 1 a 1; 1 x 2; 3 x 3; 6 x 7; 9 x 1", 20).margins())
        .containsExactly(new Margin(3, "", 3, 1, false));
    assertThat(judgeRule(rule, "0 a 0; 0 x 4; 1 a 1; 2 x 1; 4 x 6", 20).margins())
        .containsExactly(new Margin(1, "", 3, 1, false));
  }

  @Test
  void whatIsTrueForAMomentIsOverRightAfterIt() {
    String events = "0 a 0; 0 b 0; 1 a 1; 1 b 1";
    Judgement.OfRule throughout = judgeRule("when rises(a) must rises(b) throughout 3 ns", events, 20);
    Judgement.OfRule stays = judgeRule("when rises(a) must rises(b), and stay so for 3 ns", events, 20);

    assertThat(throughout.findings()).containsExactly(new Judgement.Found(Kind.NOT_THROUGHOUT, 1, 1, true, 4));
    assertThat(stays.findings()).containsExactly(new Judgement.Found(Kind.NOT_SUSTAINED, 1, 1, true, 4));
  }

  /**
   * Responses 10, 8, 6, 1 and 15 ns after their triggers: margins of 0, 2, 4, 9 and -5 of 10 ns, the last of which is
   * missed.
   */
  @Test
  void eachObligationIsCountedByItsShareOfTheTimeAllowed() {
    assertThat(spread("when rises(a) must b within 10 ns", "0 a 0; 0 b 0; 100 a 1; 110 b 1; 115 a 0; 115 b 0;"
        + " 200 a 1; 208 b 1; 215 a 0; 215 b 0; 300 a 1; 306 b 1; 315 a 0; 315 b 0; 400 a 1; 401 b 1; 415 a 0; 415 b 0;"
        + " 500 a 1; 515 b 1", 600)).contains(new MarginSpread(1e-8, 1, 1, 1, 1));
  }

  /** Three stretches with 0.5, 4 and, after 7, -2 of 10 to spare. */
  @Test
  void eachStretchIsCountedByItsSmallestMargin() {
    assertThat(spread("always x < 10 while a", "0 a 0; 0 x 9.5; 3 a 1; 6 a 0; 7 x 6; 8 a 1; 12 a 0; 13 x 3; 14 a 1;"
        + " 15 x 12; 16 x 1; 18 a 0", 20)).contains(new MarginSpread(10, 1, 0, 1, 0));
  }

  /** The least of each window: 6 and 1 of 20 to spare. */
  @Test
  void eachWindowIsCountedByItsSmallestMargin() {
    assertThat(spread("when rises(a) must x < 20 throughout 5 ns", "0 a 0; 0 x 1; 10 a 1; 12 x 14; 14 x 2; 20 a 0;"
        + " 30 a 1; 31 x 19; 32 x 3", 60)).contains(new MarginSpread(20, 1, 0, 1, 0));
  }

  @Test
  void aRuleThatAllowsNoTimeAndNoNumberIsNotMeasured() {
    assertThat(spread("when rises(a) must b", "0 a 0; 0 b 1; 1 a 1", 10)).isEmpty();
  }
}
