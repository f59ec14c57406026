package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Random charts as compiled code, drawn in both formats and written, and by an interpreter that walks them: equal to the bit after
 * each scan, also where it is to be seen what the steps and transitions come to.
 */
class RandomChartsTest {

  @Test
  void areEqualToTheBit() {
    for (long seed = 0; seed < 400; seed++) {
      compare(seed, 120);
    }
  }

  @Test
  @Tag("soak")
  void areEqualOverHundredThousandScans() {
    for (long seed = 1_000_000; seed < 1_000_200; seed++) {
      compare(seed, 100_000);
    }
  }

  static String project(RandomCharts drawn) {
    return SketchXml.project(ChartXml.program(RandomCharts.variables(), drawn.lines()));
  }

  static String newer(RandomCharts drawn, long seed) {
    return seed % 2 == 0 ? NewerXml.of(project(drawn)) : NewerXml.plain(project(drawn));
  }

  private static void compare(long seed, int scans) {
    RandomCharts chart = new RandomCharts(seed);
    String text = seed % 3 == 0 ? project(chart) : seed % 3 == 1 ? newer(chart, seed)
        : ChartText.program(RandomCharts.variables(), chart.lines());
    ScanMachine machine = seed % 3 != 2 && seed % 4 < 2 ? TestMachine.shown(text, TestMachine.all(text)) : TestMachine.of(text);
    Map<String, Long> variables = new HashMap<>();
    NaiveCharts naive = chart.naive(variables);
    List<String> names = chart.compared();
    Random random = new Random(seed);
    long now = 0;
    for (int scan = 0; scan < scans; scan++) {
      for (String input : RandomCharts.INPUTS) {
        if (random.nextInt(3) == 0) {
          set(machine, variables, input, random.nextInt(2));
        }
      }
      if (random.nextInt(5) == 0) {
        set(machine, variables, RandomCharts.TIME, 5_000_000L * random.nextInt(9));
      }
      assertThat(machine.scan(now)).isEmpty();
      naive.scan(now);
      for (String name : names) {
        long expected = naive.value(name);
        if (machine.word(name) != expected) {
          assertThat(machine.word(name)).as("seed " + seed + ", scan " + scan + ", " + name + "\n"
              + String.join("\n", chart.lines())).isEqualTo(expected);
        }
      }
      now += random.nextInt(4) == 0 ? 7_000_000L : 10_000_000L;
    }
  }

  private static void set(ScanMachine machine, Map<String, Long> variables, String name, long value) {
    machine.set(name, value);
    variables.put(name, value);
  }
}
