package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Ladder and function block networks with what they give scan by scan, worked out by hand from the rules of IEC 61131-3 for
 * graphic languages (from memory: its text was not at hand). A scan is 10 ms.
 */
class NetworkTablesTest {

  private static final long SCAN = 10_000_000L;

  static Stream<Tables.Case> cases() {
    return Tables.read("networks.txt").stream();
  }

  @Test
  void thereAreEnoughOfBothLanguages() {
    assertThat(cases().filter(it -> it.language().equals("LD")).mapToInt(Tables.Case::networks).sum())
        .isGreaterThanOrEqualTo(60);
    assertThat(cases().filter(it -> it.language().equals("FBD")).mapToInt(Tables.Case::networks).sum())
        .isGreaterThanOrEqualTo(60);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void givesWhatWasWorkedOut(Tables.Case table) {
    String xml = SketchXml.project(SketchXml.program("Main", table.language(), table.variables(),
        SketchXml.elements(Sketch.of(table.elements()))));
    ScanMachine machine = TestMachine.of(xml);
    List<String> seen = new ArrayList<>();
    long now = 0;
    for (String row : table.rows()) {
      String[] words = row.split("\\|")[0].strip().split("\\s+");
      for (int i = 0; i < table.inputs().size(); i++) {
        machine.set(table.inputs().get(i), Long.parseLong(words[i]));
      }
      assertThat(machine.scan(now)).isEmpty();
      now += SCAN;
      seen.add(row.split("\\|")[0].strip() + " | " + String.join(" ", table.outputs().stream()
          .map(output -> Long.toString(machine.word(output))).toList()));
    }
    assertThat(seen).as(table.name() + "\n" + xml).isEqualTo(table.rows().stream()
        .map(row -> row.replaceAll("\\s+", " ").replaceAll(" ?\\| ?", " | ").strip()).toList());
  }
}
