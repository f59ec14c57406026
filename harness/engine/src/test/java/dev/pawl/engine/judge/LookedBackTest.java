package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What is looked back at rests on several signals, whose changes less than 6 ns apart may have come in the other order:
 * it may have been otherwise for a moment, or not at all.
 */
class LookedBackTest {

  /** One signal goes as the other comes: in between neither may have been there. */
  @ParameterizedTest
  @CsvSource({"47, UNDECIDED", "45, UNDECIDED", "44, HELD"})
  void whatSeemsToStayMayHaveGoneForAMoment(int came, Verdict verdict) {
    assertThat(verdict("(a or b) for 40 ns", "0 a 1; 0 b 0; 0 d 0; " + came + " b 1; 50 a 0; 80 d 1"))
        .isEqualTo(verdict);
  }

  /** Neither is there for some nanoseconds, which may have been none. */
  @ParameterizedTest
  @CsvSource({"55, UNDECIDED", "56, BROKEN"})
  void whatSeemsToGoMayNotHaveGone(int came, Verdict verdict) {
    assertThat(verdict("(a or b) for 40 ns", "0 a 1; 0 b 0; 0 d 0; 50 a 0; " + came + " b 1; 80 d 1"))
        .isEqualTo(verdict);
  }

  /** Both are there for some nanoseconds, which may have been none. */
  @ParameterizedTest
  @CsvSource({"55, UNDECIDED", "56, HELD"})
  void whatSeemsToComeMayNotHaveCome(int went, Verdict verdict) {
    String log = "0 a 1; 0 b 0; 0 c 1; 0 d 0; 50 b 1; " + went + " a 0; 80 d 1";
    assertThat(verdict("(a and b) in last 40 ns", log)).isEqualTo(verdict);
    assertThat(verdict("c since (a and b)", log)).isEqualTo(verdict);
  }

  /** It was so before already, whatever the second time was. */
  @ParameterizedTest
  @CsvSource({"55, HELD", "60, HELD"})
  void whatWasSoBeforeGoesOn(int went, Verdict verdict) {
    assertThat(verdict("c since (a and b)",
        "0 a 1; 0 b 0; 0 c 1; 0 d 0; 10 b 1; 20 b 0; 50 b 1; " + went + " a 0; 80 d 1")).isEqualTo(verdict);
  }

  private static Verdict verdict(String demand, String log) {
    return judgeRule("resolution 6 ns when rises(d) must " + demand, log, 200).obligations().verdict();
  }
}
