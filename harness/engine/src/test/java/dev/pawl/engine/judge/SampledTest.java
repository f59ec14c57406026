package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Sampling;
import dev.pawl.engine.Verdict;
import java.util.EnumMap;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.StringJoiner;
import java.util.TreeMap;
import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.Test;

/** What can be said of signals that were looked at every now and then only; here every 10 ns, give or take 3 ns. */
class SampledTest {
  private static final int LONGEST = 13;
  private static final int RISES = 40;
  private static final String WITHIN = "when rises(a) must b within 50 ns";
  private static final String THROUGHOUT = "when rises(a) must not b after 10 ns throughout 40 ns";

  /** Adds the rows of a signal. */
  private static void look(SplittableRandom random, String name, IntUnaryOperator truth, Map<Integer, String> rows) {
    rows.merge(0, "0 " + name + " " + truth.applyAsInt(0), (one, other) -> one + "; " + other);
    for (int time = random.nextInt(1, LONGEST); time < 200; time += random.nextInt(7, LONGEST + 1)) {
      rows.merge(time, time + " " + name + " " + truth.applyAsInt(time), (one, other) -> one + "; " + other);
    }
  }

  /** How a rule came out over many phases, b following a after a lag. */
  private static Map<Verdict, Integer> verdicts(String rule, int lag, Sampling sampling) {
    Map<Verdict, Integer> verdicts = new EnumMap<>(Verdict.class);
    for (int seed = 0; seed < 40; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      Map<Integer, String> rows = new TreeMap<>();
      IntUnaryOperator a = time -> time >= RISES ? 1 : 0;
      IntUnaryOperator b = time -> time >= RISES + lag ? 1 : 0;
      if (sampling.period(0) > 0) {
        look(random, "a", a, rows);
      } else {
        rows.merge(0, "0 a 0", (one, other) -> one + "; " + other);
        rows.merge(RISES, RISES + " a 1", (one, other) -> one + "; " + other);
      }
      look(random, "b", b, rows);
      StringJoiner events = new StringJoiner("; ");
      rows.values().forEach(events::add);
      verdicts.merge(judgeRule(rule, events.toString(), 200, sampling).obligations().verdict(), 1, Integer::sum);
    }
    return verdicts;
  }

  /** Signal 0 is a, signal 1 is b. */
  /** The response may have come in time, and be seen at a look after the end. */
  @Test
  void atTheEndOfTheTraceWhatMayStillBeSeenIsOpen() {
    String rule = "when rises(a) must b within 20 ns";
    String events = "0 a 0; 0 b 0; 50 a 1";

    assertThat(judgeRule(rule, events, 72, Sampling.NONE).obligations().verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(judgeRule(rule, events, 72, Sampling.of(5, 5)).obligations().verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(judgeRule(rule, events, 75, Sampling.of(5, 5)).obligations().verdict()).isEqualTo(Verdict.BROKEN);
  }

  /** In one row of what is polled it is open whether it fell before its release. */
  @Test
  void aFallInTheRowOfItsReleaseIsBorderline() {
    String rule = "when rises(a) must b within 20 ns, and stay so until c";
    String events = "0 a 0; 0 b 0; 0 c 0; 50 a 1; 60 b 1; 100 b 0; 100 c 1";

    assertThat(judgeRule(rule, events, 200, Sampling.NONE).obligations().verdict()).isEqualTo(Verdict.HELD);
    assertThat(judgeRule(rule, events, 200, Sampling.of(5, 5, 5)).obligations().verdict())
        .isEqualTo(Verdict.UNDECIDED);
  }

  @Test
  void whatCameTooLateIsNeverHeldAndWhatCameInTimeNeverBroken() {
    for (Sampling sampling : new Sampling[] {Sampling.of(LONGEST, LONGEST), Sampling.of(0, LONGEST)}) {
      assertThat(verdicts(WITHIN, 56, sampling)).doesNotContainKey(Verdict.HELD);
      assertThat(verdicts(WITHIN, 51, sampling)).doesNotContainKey(Verdict.HELD);
      assertThat(verdicts(WITHIN, 49, sampling)).doesNotContainKey(Verdict.BROKEN);
      assertThat(verdicts(WITHIN, 30, sampling)).doesNotContainKey(Verdict.BROKEN).containsKey(Verdict.HELD);
      assertThat(verdicts(WITHIN, 80, sampling)).containsOnlyKeys(Verdict.BROKEN);
      assertThat(verdicts(THROUGHOUT, 49, sampling)).doesNotContainKey(Verdict.HELD);
      assertThat(verdicts(THROUGHOUT, 51, sampling)).doesNotContainKey(Verdict.BROKEN);
      assertThat(verdicts(THROUGHOUT, 80, sampling)).containsOnlyKeys(Verdict.HELD);
      assertThat(verdicts(THROUGHOUT, 30, sampling)).doesNotContainKey(Verdict.HELD).containsKey(Verdict.BROKEN);
    }
  }

  /** Without its periods being known such a log is taken at its word, which is what they are for. */
  @Test
  void aLogTakenAtItsWordIsHeldAtTimes() {
    String seen = "0 a 0; 0 b 0; 49 a 1; 99 b 1";
    assertThat(judgeRule(WITHIN, seen, 200, Sampling.NONE).obligations().verdict()).isEqualTo(Verdict.HELD);
    assertThat(judgeRule(WITHIN, seen, 200, Sampling.of(LONGEST, LONGEST)).obligations().verdict())
        .isEqualTo(Verdict.UNDECIDED);
  }

  /**
   * Which of two signals that changed in one row did so first is not known; of one signal, or of logs of changes, it
   * is.
   */
  @Test
  void whatChangesInTheTriggersRowMayHaveDoneSoBeforeOrAfterIt() {
    for (String rule : new String[] {"when rises(a) must b", "when rises(a) must not b",
        "when rises(a) must b, and stay so for 50 ns", "when rises(a) must b throughout 50 ns"}) {
      assertThat(judgeRule(rule, "0 a 0; 0 b 0; 50 a 1; 50 b 1", 200, Sampling.of(10, 10)).obligations().verdict())
          .isEqualTo(Verdict.UNDECIDED);
      assertThat(judgeRule(rule, "0 a 0; 0 b 0; 50 a 1; 50 b 1", 200, Sampling.of(0, 10)).obligations().verdict())
          .isNotEqualTo(Verdict.UNDECIDED);
      assertThat(judgeRule(rule, "0 a 0; 0 b 1; 50 a 1", 200, Sampling.of(10, 10)).obligations().verdict())
          .isNotEqualTo(Verdict.UNDECIDED);
    }
    assertThat(judgeRule("when rises(x > 1) must x < 3", "0 x 0; 50 x 2", 200, Sampling.of(10, 10, 10, 10, 10))
        .obligations().verdict())
        .isEqualTo(Verdict.HELD);
  }

  @Test
  void aPossibleTriggerInSuchARowIsNotSurelyMet() {
    for (String rule : new String[] {"when rises(a) must b", "when rises(a) must b, and stay so for 20 ns",
        "when rises(a) must b throughout 20 ns"}) {
      String events = "0 a 0; 0 b 0; 50 a ?; 50 b 1; 60 a 0";
      assertThat(judgeRule(rule, events, 200, Sampling.of(10, 10)).obligations().unknownTriggers()).isEqualTo(1);
      assertThat(judgeRule(rule, events, 200, Sampling.of(0, 10)).obligations().unknownTriggers()).isZero();
    }
  }
}
