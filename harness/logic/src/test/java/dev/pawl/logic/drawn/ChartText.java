package dev.pawl.logic.drawn;

import java.util.Comparator;
import java.util.List;

/** The writer of the lines of a {@link ChartXml} as a program in Structured Text. */
final class ChartText {

  private ChartText() {}

  /** A program with the chart as its body; transitions stand from the left to the right. */
  static String program(String variables, List<String> lines) {
    StringBuilder text = new StringBuilder("PROGRAM Main\nVAR\n");
    for (String declaration : variables.split(";")) {
      String[] sides = declaration.split(":", 2);
      text.append(declaration.isBlank() ? "" : String.join(", ", sides[0].strip().split("\\s+")) + " :" + sides[1]
          + ";\n");
    }
    text.append("END_VAR\n");
    lines.stream().filter(line -> !line.startsWith("trans")).forEach(line -> part(line, text));
    lines.stream().filter(line -> line.startsWith("trans")).sorted(Comparator.comparingInt(line -> line.contains("@")
        ? Integer.parseInt(line.substring(line.indexOf('@') + 1)) : 0)).forEach(line -> transition(line, text));
    return text.append("END_PROGRAM\n").toString();
  }

  private static void transition(String line, StringBuilder text) {
    String[] sides = line.substring(6).split("\\s*(->|:|@)\\s*", 4);
    String priority = sides[0].contains(">") ? "(PRIORITY := " + sides[0].strip().split(">")[0] + ") " : "";
    text.append("TRANSITION ").append(priority).append("FROM (").append(sides[0].replaceFirst(".*>", ""))
        .append(") TO (").append(sides[1].replace("^", "")).append(") := ").append(sides[2])
        .append("; END_TRANSITION\n");
  }

  private static void part(String line, StringBuilder text) {
    String[] words = line.split("\\s+");
    if (words[0].equals("action")) {
      text.append("ACTION ").append(line.substring(7)).append(" END_ACTION\n");
      return;
    }
    text.append(words[0].equals("initial") ? "INITIAL_STEP " : "STEP ").append(words[1]).append(": ");
    for (int i = 2; i < words.length; i++) {
      String[] pieces = words[i].split(":");
      text.append(pieces[1]).append("(").append(pieces[0]).append(pieces.length > 2 ? ", " + pieces[2] : "")
          .append("); ");
    }
    text.append("END_STEP\n");
  }
}
