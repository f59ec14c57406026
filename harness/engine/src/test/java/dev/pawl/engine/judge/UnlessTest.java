package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import org.junit.jupiter.api.Test;

/** What an {@code unless} that is true or unknown makes of the obligations there are, and of the one that arises. */
class UnlessTest {
  private static final String RULE = "when rises(a) unless d must b within 5 ns";
  private static final String ALL_OFF = "0 a 0; 0 b 0; 0 d 0; ";

  private static void gives(Obligations obligations, String events) {
    assertThat(judgeRule(RULE, ALL_OFF + events, 20).obligations()).isEqualTo(obligations);
  }

  @Test
  void cancelsWhatWaitsAndWhatArises() {
    gives(new Obligations(0, 0, 0, 0, 0, 1, 0), "1 a 1; 4 d 1");
    gives(new Obligations(0, 0, 0, 0, 0, 1, 0), "1 d 1; 3 a 1");
    gives(new Obligations(0, 0, 0, 0, 0, 2, 0), "1 a 1; 2 a 0; 3 a 1; 3 d 1");
  }

  @Test
  void leavesAloneWhatIsDecided() {
    gives(new Obligations(1, 0, 0, 0, 0, 0, 0), "1 a 1; 3 b 1; 4 d 1");
    gives(new Obligations(0, 1, 0, 0, 0, 0, 0), "1 a 1; 7 d 1");
  }

  @Test
  void leavesUndecidedWhatEndsWhileItIsUnknown() {
    gives(new Obligations(0, 0, 0, 0, 1, 0, 0), "1 a 1; 2 d ?; 3 d 0; 4 b 1");
    gives(new Obligations(0, 0, 0, 0, 1, 0, 0), "1 a 1; 2 d ?; 3 d 0");
    gives(new Obligations(1, 0, 0, 0, 0, 0, 0), "1 d ?; 2 d 0; 3 a 1; 4 b 1");
  }

  /** Open stays open: the trace may go on and tell. */
  @Test
  void doesNotTouchWhatTheTraceLeavesOpen() {
    assertThat(judgeRule(RULE, ALL_OFF + "1 a 1; 2 d ?", 4).obligations())
        .isEqualTo(new Obligations(0, 0, 1, 0, 0, 0, 0));
  }
}
