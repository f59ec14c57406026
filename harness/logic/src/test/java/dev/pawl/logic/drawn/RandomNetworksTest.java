package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.LongStream;
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
    LongStream.range(1_000_000, 1_000_000 + Integer.getInteger("pawl.networks", 300)).parallel()
        .forEach(seed -> compare(seed, 100_000));
  }

  static String project(RandomNetworks drawn) {
    return SketchXml.project(SketchXml.program("Main", "LD", drawn.variables(), SketchXml.elements(drawn.sketch())));
  }

  private static void compare(long seed, int scans) {
    RandomNetworks drawn = new RandomNetworks(seed);
    String older = project(drawn);
    boolean newer = seed % 3 == 1 && NewerXml.has(older);
    String xml = newer ? NewerXml.of(older) : older;
    Shown shown = seed % 5 == 0 && !newer ? TestMachine.all(xml) : Shown.nothing();
    ScanMachine machine = TestMachine.shown(xml, shown);
    Map<String, Long> variables = new HashMap<>();
    RandomNetworks.TRUTHS.forEach(name -> variables.put(name, 0L));
    RandomNetworks.NUMBERS.forEach(name -> variables.put(name, 0L));
    NaiveNetworks naive = new NaiveNetworks(drawn.sketch(), variables);
    Map<String, Integer> slots = new HashMap<>();
    variables.keySet().forEach(name -> slots.put(name, machine.address(name)));
    List<String> inputs = variables.keySet().stream().filter(name -> name.startsWith("a") || name.startsWith("i"))
        .toList();
    Random random = new Random(seed);
    for (int scan = 0; scan < scans; scan++) {
      for (String name : inputs) {
        long value = name.startsWith("a") ? random.nextInt(2) : random.nextInt(4) == 0 ? (short) random.nextInt()
            : random.nextInt(5);
        variables.put(name, value);
        machine.setWordAt(slots.get(name), value);
      }
      if (machine.scan(scan * SCAN).isPresent()) {
        throw new AssertionError("seed " + seed + ", scan " + scan + ": a run-time error\n" + xml);
      }
      naive.scan(scan * SCAN);
      for (Shown.Network network : shown.networks()) {
        network.outputs().forEach((output, name) -> naive.wire(output.from(), output.output()).ifPresent(carried -> {
          if (machine.word(name) != carried) {
            assertThat(machine.word(name)).as("seed " + seed + ", " + output + "\n" + xml).isEqualTo(carried);
          }
        }));
      }
      for (Map.Entry<String, Long> variable : variables.entrySet()) {
        long word = machine.wordAt(slots.get(variable.getKey()));
        if (word != variable.getValue()) {
          assertThat(word).as("seed " + seed + ", scan " + scan + ", " + variable.getKey() + "\n" + xml)
              .isEqualTo(variable.getValue());
        }
      }
    }
  }
}
