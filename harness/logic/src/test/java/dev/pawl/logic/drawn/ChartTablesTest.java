package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.TestMachine;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Sequential function charts with what they give scan by scan, worked out by hand from the rules of IEC 61131-3 for
 * their evolution and for the control of actions (from memory: its text was not at hand).
 */
class ChartTablesTest {

  static List<Tables.Case> cases() {
    return Tables.read("charts.txt");
  }

  static Stream<Tables.Case> all() {
    return cases().stream();
  }

  @Test
  void thereAreEnough() {
    assertThat(cases()).hasSizeGreaterThanOrEqualTo(25);
  }

  static String project(Tables.Case table) {
    return SketchXml.project(ChartXml.program(table.variables(), table.elements()));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("all")
  void givesWhatWasWorkedOut(Tables.Case table) {
    String xml = project(table);
    assertThat(table.played(TestMachine.of(xml))).as(table.name() + "\n" + xml).isEqualTo(table.expected());
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("all")
  void givesTheSameInTheNewerFormat(Tables.Case table) {
    for (String xml : List.of(NewerXml.of(project(table)), NewerXml.plain(project(table)))) {
      assertThat(table.played(TestMachine.of(xml))).as(table.name() + "\n" + xml).isEqualTo(table.expected());
    }
  }

  static Stream<Tables.Case> written() {
    return all().filter(table -> table.elements().stream().noneMatch(line -> line.startsWith("draw")));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("written")
  void givesTheSameWhereItIsWritten(Tables.Case table) {
    String text = ChartText.program(table.variables(), table.elements());
    assertThat(table.played(TestMachine.of(text))).as(text).isEqualTo(table.expected());
  }
}
