package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.Margin;
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
}
