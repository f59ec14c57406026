package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Sampling;
import dev.pawl.engine.Verdict;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What {@code unless} cancels may have been missed all the same where it was so for a moment only: before the trigger,
 * or, of several signals, not at all. Times are off by less than 6 ns.
 */
class BriefUnlessTest {
  private static final String START = "0 a 0; 0 b 0; 0 c 0; 0 d 0; ";

  /** Both are true together for some nanoseconds, which may have been none. */
  @ParameterizedTest
  @CsvSource({"77, UNDECIDED", "80, UNDECIDED", "81, NOT_EXERCISED", "120, NOT_EXERCISED"})
  void ofSeveralSignalsItMayNotHaveBeenSoAtAll(int until, Verdict verdict) {
    assertThat(verdict("(a and b)", "34 a 1; 69 d 1; 75 b 1; " + until + " a 0")).isEqualTo(verdict);
  }

  @ParameterizedTest
  @CsvSource({"72, UNDECIDED", "74, UNDECIDED", "75, NOT_EXERCISED"})
  void itMayHaveComeAndGoneBeforeTheTrigger(int until, Verdict verdict) {
    assertThat(verdict("b", "69 d 1; 71 b 1; " + until + " b 0")).isEqualTo(verdict);
  }

  @ParameterizedTest
  @CsvSource({"70, UNDECIDED", "74, UNDECIDED", "75, NOT_EXERCISED"})
  void anEventMayHaveHappenedBeforeTheTrigger(int at, Verdict verdict) {
    assertThat(verdict("rises(b)", "69 d 1; " + at + " b 1")).isEqualTo(verdict);
  }

  /** The state beside an event may have been otherwise then. */
  @ParameterizedTest
  @CsvSource({"81, UNDECIDED", "85, UNDECIDED", "86, NOT_EXERCISED"})
  void anEventMayHaveBeenBesideAnotherState(int turned, Verdict verdict) {
    assertThat(verdict("(rises(b) and a)", "34 a 1; 69 d 1; 80 b 1; " + turned + " a 0")).isEqualTo(verdict);
  }

  /** The trace ends before it has been so for long enough. */
  @ParameterizedTest
  @CsvSource({"80, UNDECIDED", "81, NOT_EXERCISED"})
  void asLongAsTheTraceDoesNotShowItItIsOpen(int end, Verdict verdict) {
    assertThat(judgeRule("resolution 6 ns when rises(d) unless (a and b) must c within 20 ns",
        START + "34 a 1; 69 d 1; 75 b 1", end).obligations().verdict()).isEqualTo(verdict);
  }

  /** Where it came just before the trigger, it may have come after it, and after what broke the rule. */
  @ParameterizedTest
  @CsvSource({"66, UNDECIDED", "63, NOT_EXERCISED", "75, UNDECIDED", "76, BROKEN"})
  void whatIsMissedAtOnceIsNotCancelledByWhatMayHaveComeLater(int at, Verdict verdict) {
    assertThat(judgeRule("resolution 6 ns when rises(d) unless a must c before not b",
        START + (at < 69 ? at + " a 1; 69 d 1" : "69 d 1; " + at + " a 1"), 260).obligations().verdict())
        .isEqualTo(verdict);
  }

  /** A signal that is looked at seldom matters only where it is what changed. */
  @ParameterizedTest
  @CsvSource({"50, NOT_EXERCISED", "0, UNDECIDED"})
  void onlyWhatChangedCanHaveDoneSoBefore(int periodOfA, Verdict verdict) {
    Sampling sampling = Sampling.of(periodOfA, 50 - periodOfA);
    assertThat(judgeRule("resolution 6 ns when rises(d) unless rises(a and b) must c throughout 90 ns",
        "0 a 1; 0 b 0; 0 c 1; 0 d 0; 69 d 1; 90 b 1; 130 c 0", 260, sampling).obligations().verdict())
        .isEqualTo(verdict);
  }

  private static Verdict verdict(String unless, String log) {
    return judgeRule("resolution 6 ns when rises(d) unless " + unless + " must c within 20 ns", START + log, 260)
        .obligations().verdict();
  }
}
