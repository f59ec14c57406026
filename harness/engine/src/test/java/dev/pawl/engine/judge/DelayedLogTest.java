package dev.pawl.engine.judge;

import static dev.pawl.engine.proof.TextCase.judgeRule;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Logs of changes whose times are up to 6 ns late, of random rides whose truth is known: where the resolution says so,
 * no verdict contradicts the truth. Pulses shorter than the resolution are left out; no two signals share a time, which
 * would make them one image.
 */
class DelayedLogTest {
  private static final int RESOLUTION = 6;
  private static final int END = 260;
  private static final int RIDES = 30;

  /** The rows of one ride as they truly were, and as the log has them. */
  private record Ride(TreeMap<Integer, List<String>> truly, TreeMap<Integer, List<String>> logged) {

    static Ride of(SplittableRandom random) {
      Ride ride = new Ride(new TreeMap<>(), new TreeMap<>());
      for (String signal : List.of("a", "b", "c", "d")) {
        int value = random.nextInt(2);
        ride.add(ride.truly, 0, signal, value);
        ride.add(ride.logged, 0, signal, value);
        int before = 0;
        for (int at = random.nextInt(20, 80); at < 200; at += random.nextInt(RESOLUTION + 2, 70)) {
          value = 1 - value;
          ride.add(ride.truly, at, signal, value);
          before = ride.freeTime(Math.max(before + 1, at + random.nextInt(RESOLUTION)), at);
          ride.add(ride.logged, before, signal, value);
        }
      }
      return ride;
    }

    /**
     * A time up to the resolution after a change that no other row has; the change's own resolution's end if none is
     * free.
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

    boolean sharesATime() {
      return logged.tailMap(1).values().stream().anyMatch(rows -> rows.size() > 1);
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
      "when rises(d) unless P must c, and stay so for 20 ns", "when rises(d) unless c must P within 20 ns",
      "when rises(d) unless c must P throughout 20 ns", "when rises(d) and P must c within 20 ns",
      "when rises(P) must c within 20 ns", "when P must c", "when falls(P) must c, and stay so for 20 ns", "always P", "always P while d", "always P unless d"})
  void noVerdictContradictsTheTruth(String form) {
    for (String condition : new String[] {"b", "(a or b)", "(not (a and b))", "(a since b)", "(a for 10 ns)",
        "(rises(a) in last 15 ns)", "(not (a in last 10 ns))", "((a or b) for 10 ns)"}) {
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
