package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Logs of changes whose times are up to 6 ns late, of random rides whose truth is known: where the resolution says so,
 * no verdict contradicts the truth. Pulses shorter than the resolution are left out; what turned at one instant, one
 * image, shares a row, and nothing else does.
 */
class DelayedLogTest {
  private static final int RESOLUTION = 6;
  private static final int END = 260;
  private static final int RIDES = 30;

  /** The rows of one ride as they truly were, and as the log has them. */
  private record Ride(TreeMap<Integer, List<String>> truly, TreeMap<Integer, List<String>> logged) {

    static Ride of(SplittableRandom random) {
      Ride ride = new Ride(new TreeMap<>(), new TreeMap<>());
      Map<String, Integer> signals = new TreeMap<>();
      TreeMap<Integer, List<String>> instants = new TreeMap<>();
      for (String signal : List.of("a", "b", "c", "d")) {
        signals.put(signal, random.nextInt(2));
        ride.add(ride.truly, 0, signal, signals.get(signal));
        ride.add(ride.logged, 0, signal, signals.get(signal));
        for (int at = random.nextInt(20, 80); at < 200; at += random.nextInt(RESOLUTION + 2, 70)) {
          instants.computeIfAbsent(at, it -> new ArrayList<>()).add(signal);
        }
      }
      instants.forEach((at, turning) -> {
        int time = ride.freeTime(at + random.nextInt(RESOLUTION), at);
        for (String signal : turning) {
          signals.merge(signal, 1, (value, one) -> one - value);
          ride.add(ride.truly, at, signal, signals.get(signal));
          ride.add(ride.logged, time, signal, signals.get(signal));
        }
      });
      return ride;
    }

    /**
     * A time up to the resolution after an instant that no other has; the last of these if none is free.
     */
    private int freeTime(int from, int at) {
      int time = from;
      while (logged.containsKey(time) && time < at + RESOLUTION - 1) {
        time++;
      }
      return time;
    }

    private void add(TreeMap<Integer, List<String>> rows, int time, String signal, int value) {
      rows.computeIfAbsent(time, it -> new ArrayList<>()).add(time + " " + signal + " " + value);
    }

    /** Whether two instants came to share a row. */
    boolean sharesATime() {
      return logged.size() < truly.size();
    }

    static String text(TreeMap<Integer, List<String>> rows) {
      return String.join("; ", rows.values().stream().flatMap(List::stream).toList());
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"when rises(d) must P", "when rises(d) must not P", "when rises(d) must P within 20 ns",
      "when rises(d) must P after 10 ns within 20 ns", "when rises(d) must P throughout 20 ns",
      "when rises(d) must P, and stay so for 20 ns", "when rises(d) must P, and stay so until c",
      "when rises(d) must P within 20 ns, and stay so until c", "when rises(d) must P before c",
      "when rises(d) while P must c", "when rises(d) while P must c within 20 ns", "when rises(d) unless P must c",
      "when rises(d) unless P must c within 20 ns", "when rises(d) unless P must c throughout 20 ns",
      "when rises(d) unless P must c, and stay so for 20 ns", "when rises(d) unless P must c before b",
      "when rises(d) unless c must P within 20 ns", "when rises(d) unless c must P throughout 20 ns", "when rises(d) and P must c within 20 ns",
      "when rises(P) must c within 20 ns", "when P must c", "when falls(P) must c, and stay so for 20 ns",
      "always P", "always P while d", "always P unless d"})
  void noVerdictContradictsTheTruth(String form) {
    for (String condition : new String[] {"b", "(a or b)", "(not (a and b))", "(a since b)", "(a for 10 ns)",
        "(rises(a) in last 15 ns)", "(not (a in last 10 ns))", "((a or b) for 10 ns)",
        "(c since (a and b))"}) {
      agrees(form.replace("P", condition));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"when rises(d) must P", "when rises(d) must not P", "when rises(d) must P within 20 ns",
      "when rises(d) must P after 10 ns within 20 ns", "when rises(d) must not P throughout 20 ns",
      "when rises(d) must P before c", "when rises(d) must c before P", "when rises(d) while P must c",
      "when rises(d) unless P must c", "when rises(d) unless c must P within 20 ns", "when P and a must c", "never P",
      "never P and d", "always not P unless d"})
  void noVerdictOnWhatHappensContradictsTheTruth(String form) {
    for (String condition : new String[] {"rises(b)", "changes(b)", "(rises(a) or rises(b))"}) {
      agrees(form.replace("P", condition));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"when rises(d) must P", "when rises(d) must not P", "never P", "never P and d",
      "always not P unless d", "always P or d"})
  void norDoesOneOnWhatHappensBesideAState(String form) {
    for (String condition : new String[] {"(rises(b) and a)", "(a or rises(b))", "(changes(a) and not b)"}) {
      agrees(form.replace("P", condition));
    }
  }

  @Test
  void whatIsFarApartIsDecided() {
    String log = "0 a 0; 0 b 0; 0 c 0; 0 d 0; 50 b 1; 100 d 1; 150 b 0";
    assertThat(judgeRule("resolution 6 ns when rises(d) must b", log, END).obligations().verdict())
        .isEqualTo(Verdict.HELD);
    assertThat(judgeRule("resolution 6 ns when rises(d) unless b must c within 20 ns", log, END).obligations()
        .verdict())
        .isEqualTo(Verdict.NOT_EXERCISED);
  }

  private static void agrees(String rule) {
    SplittableRandom random = new SplittableRandom(rule.hashCode());
    int judged = 0;
    while (judged < RIDES) {
      Ride ride = Ride.of(random);
      if (ride.sharesATime()) {
        continue;
      }
      judged++;
      Verdict truth = judgeRule(rule, Ride.text(ride.truly), END).obligations().verdict();
      Verdict verdict = judgeRule("resolution 6 ns " + rule, Ride.text(ride.logged), END).obligations().verdict();
      boolean contradicts = truth == Verdict.BROKEN && verdict != Verdict.BROKEN && verdict != Verdict.UNDECIDED
          || truth != Verdict.BROKEN && verdict == Verdict.BROKEN;
      assertThat(contradicts).as("%s: truly %s, judged %s: truly %s; logged %s", rule, truth, verdict,
          Ride.text(ride.truly), Ride.text(ride.logged)).isFalse();
    }
  }
}
