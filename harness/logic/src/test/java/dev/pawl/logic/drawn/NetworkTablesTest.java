package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.TestMachine;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Ladder and function block networks with what they give scan by scan, worked out by hand from the rules of IEC
 * 61131-3 for graphic languages (from memory: its text was not at hand). A scan is 10 ms.
 */
class NetworkTablesTest {

  static Stream<Tables.Case> cases() {
    return Tables.read("networks.txt").stream();
  }

  @Test
  void thereAreEnoughOfBothLanguages() {
    assertThat(cases().filter(it -> it.language().equals("LD")).mapToLong(Tables.Case::networks).sum())
        .isGreaterThanOrEqualTo(60);
    assertThat(cases().filter(it -> it.language().equals("FBD")).mapToLong(Tables.Case::networks).sum())
        .isGreaterThanOrEqualTo(60);
  }

  static String project(Tables.Case table) {
    return SketchXml.project(SketchXml.program("Main", table.language(), table.variables(),
        SketchXml.elements(Sketch.of(table.elements()))));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void givesWhatWasWorkedOut(Tables.Case table) {
    String xml = project(table);
    assertThat(table.played(TestMachine.of(xml))).as(table.name() + "\n" + xml).isEqualTo(table.expected());
  }

  static Stream<Tables.Case> newer() {
    return cases().filter(table -> NewerXml.has(project(table)));
  }

  @Test
  void mostAreInTheNewerFormatToo() {
    assertThat(newer().mapToLong(Tables.Case::networks).sum()).isGreaterThanOrEqualTo(100);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("newer")
  void givesTheSameInTheNewerFormat(Tables.Case table) {
    String xml = NewerXml.of(project(table));
    assertThat(table.played(TestMachine.of(xml))).as(table.name() + "\n" + xml).isEqualTo(table.expected());
  }
}
