package dev.pawl.report.text;

import dev.pawl.report.model.StressReport;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** Kinds of faults against rules, as a table of comma-separated values. */
public final class StressMatrix {

  private StressMatrix() {}

  /** A row for each kind of fault, a column for each rule. */
  public static String of(StressReport report) {
    StringBuilder table = new StringBuilder("fault,runs,hazards,unnoticed," + String.join(",", report.rules()) + "\n");
    for (StressReport.Kind kind : report.kinds()) {
      table.append('"').append(kind.name()).append("\",").append(kind.runs()).append(',').append(kind.hazards())
          .append(',').append(kind.unnoticed());
      IntStream.range(0, report.rules().size()).forEach(rule -> table.append(',').append(kind.broken().get(rule)));
      table.append('\n');
    }
    return table + "all runs," + report.counts().runs() + ",," + report.counts().broken().stream().map(it -> "," + it)
        .collect(Collectors.joining()) + "\n";
  }
}
