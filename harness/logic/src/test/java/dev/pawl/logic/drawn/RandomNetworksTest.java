package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Random diagrams as compiled code and by an interpreter that goes along their wires: equal to the bit after each
 * scan, also where it is to be seen what the elements come to.
 */
class RandomNetworksTest {

  private static final long SCAN = 10_000_000L;

  @Test
  void areEqualToTheBit() {
    for (long seed = 0; seed < 1500; seed++) {
      compare(seed, 60);
    }
  }

  @Test
  @Tag("soak")
  void areEqualOverHundredThousandScans() {
    for (long seed = 1_000_000; seed < 1_000_200; seed++) {
      compare(seed, 100_000);
    }
  }

  static String project(RandomNetworks drawn) {
    return SketchXml.project(SketchXml.program("Main", "LD", drawn.variables(), SketchXml.elements(drawn.sketch())));
  }

  private static void compare(long seed, int scans) {
    RandomNetworks drawn = new RandomNetworks(seed);
    String xml = project(drawn);
    Shown shown = seed % 5 == 0 ? TestMachine.all(xml) : Shown.nothing();
    ScanMachine machine = TestMachine.shown(xml, shown);
    Map<String, Long> variables = new HashMap<>();
    RandomNetworks.TRUTHS.forEach(name -> variables.put(name, 0L));
    RandomNetworks.NUMBERS.forEach(name -> variables.put(name, 0L));
    NaiveNetworks naive = new NaiveNetworks(drawn.sketch(), variables);
    Random random = new Random(seed);
    for (int scan = 0; scan < scans; scan++) {
      for (String name : variables.keySet()) {
        if (name.startsWith("a") || name.startsWith("i")) {
          long value = name.startsWith("a") ? random.nextInt(2) : random.nextInt(4) == 0 ? (short) random.nextInt()
              : random.nextInt(5);
          variables.put(name, value);
          machine.set(name, value);
        }
      }
      assertThat(machine.scan(scan * SCAN)).isEmpty();
      naive.scan(scan * SCAN);
      for (Shown.Network network : shown.networks()) {
        network.outputs().forEach((output, name) -> naive.wire(output.from(), output.output()).ifPresent(carried -> {
          if (machine.word(name) != carried) {
            assertThat(machine.word(name)).as("seed " + seed + ", " + output + "\n" + xml).isEqualTo(carried);
          }
        }));
      }
      for (Map.Entry<String, Long> variable : variables.entrySet()) {
        if (machine.word(variable.getKey()) != variable.getValue()) {
          assertThat(machine.word(variable.getKey())).as("seed " + seed + ", scan " + scan + ", " + variable.getKey()
              + "\n" + xml).isEqualTo(variable.getValue());
        }
      }
    }
  }
}
