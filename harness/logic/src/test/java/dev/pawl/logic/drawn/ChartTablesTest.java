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

  static Stream<Tables.Case> written() {
    return all().filter(table -> table.elements().stream().noneMatch(line -> line.startsWith("draw")));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("written")
  void givesTheSameWhereItIsWritten(Tables.Case table) {
    StringBuilder text = new StringBuilder("PROGRAM Main\nVAR\n");
    for (String declaration : table.variables().split(";")) {
      String[] sides = declaration.split(":", 2);
      text.append(declaration.isBlank() ? "" : String.join(", ", sides[0].strip().split("\\s+")) + " :" + sides[1]
          + ";\n");
    }
    text.append("END_VAR\n");
    for (String line : table.elements()) {
      String[] words = line.split("\\s+");
      if (words[0].equals("action")) {
        text.append("ACTION ").append(line.substring(7)).append(" END_ACTION\n");
      } else if (words[0].equals("trans")) {
        String[] sides = line.substring(6).split("\\s*(->|:)\\s*", 3);
        String priority = sides[0].contains(">") ? "(PRIORITY := " + sides[0].strip().split(">")[0] + ") " : "";
        text.append("TRANSITION ").append(priority).append("FROM (").append(sides[0].replaceFirst(".*>", ""))
            .append(") TO (").append(sides[1]).append(") := ").append(sides[2]).append("; END_TRANSITION\n");
      } else {
        text.append(words[0].equals("initial") ? "INITIAL_STEP " : "STEP ").append(words[1]).append(": ");
        for (int i = 2; i < words.length; i++) {
          String[] pieces = words[i].split(":");
          text.append(pieces[1]).append("(").append(pieces[0]).append(pieces.length > 2 ? ", " + pieces[2] : "")
              .append("); ");
        }
        text.append("END_STEP\n");
      }
    }
    text.append("END_PROGRAM\n");
    assertThat(table.played(TestMachine.of(text.toString()))).as(text.toString()).isEqualTo(table.expected());
  }
}
