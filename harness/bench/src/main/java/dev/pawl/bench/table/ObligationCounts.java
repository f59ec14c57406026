package dev.pawl.bench.table;

import dev.pawl.engine.Obligations;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.json.JsonReportReader;
import dev.pawl.report.json.ReportFormatException;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import java.util.Scanner;

/**
 * How many obligations of each rule arose and how many of them were missed.
 *
 * @param arose by rule; -1 where the program cannot say
 */
record ObligationCounts(Map<String, Long> arose, Map<String, Long> missed) {

  private static ObligationCounts empty() {
    return new ObligationCounts(new HashMap<>(), new HashMap<>());
  }

  private void put(String rule, long obligations, long broken) {
    arose.put(rule, obligations);
    missed.put(rule, broken);
  }

  /** Of a report that {@code pawl check --format json} printed. */
  static ObligationCounts ofReport(String json) throws IOException {
    ObligationCounts counts = empty();
    try {
      ReportDigest report = JsonReportReader.read("report",
          new ByteArrayInputStream(json.getBytes(StandardCharsets.UTF_8)));
      for (ReportDigest.RuleDigest rule : report.traces().get(0).rules()) {
        Obligations obligations = rule.obligations();
        counts.put(rule.id(), obligations.met() + obligations.missed() + obligations.open(), obligations.missed());
      }
    } catch (ReportFormatException e) {
      throw new IOException("the report cannot be read: " + e.getMessage(), e);
    }
    return counts;
  }

  /** Of the last line that the scanner or the event engine printed. */
  static ObligationCounts ofLine(String output) {
    String[] lines = output.strip().split("\n");
    Map<String, Long> named = new HashMap<>();
    for (String part : lines[lines.length - 1].split(", ")) {
      String[] words = part.split(" ");
      if (!words[1].contains(".")) {
        named.put(words[0], Long.parseLong(words[1]));
      }
    }
    ObligationCounts counts = empty();
    counts.put("STOP-01", named.get("stops"), named.get("late"));
    counts.put("ZONE-01", named.get("dispatches"), named.get("wrong"));
    return counts;
  }

  /** Of what the SQL peer printed: a line of loading, then one of each rule. */
  static ObligationCounts ofQueries(String output) {
    ObligationCounts counts = empty();
    try (Scanner lines = new Scanner(output)) {
      lines.nextLine();
      while (lines.hasNextLine()) {
        String[] words = lines.nextLine().split(" ");
        counts.put(words[0], words[1].equals("-") ? -1 : Long.parseLong(words[1]), Long.parseLong(words[2]));
      }
    }
    return counts;
  }

  /** What differs between these counts and others of the same rules; empty where nothing does. */
  String differences(ObligationCounts others) {
    StringBuilder text = new StringBuilder();
    others.missed.forEach((rule, count) -> {
      long obligations = others.arose.get(rule);
      boolean same = count.equals(missed.get(rule)) && (obligations < 0 || arose.get(rule) == obligations);
      if (!same) {
        text.append(' ').append(rule).append(": ").append(arose.get(rule)).append('/').append(missed.get(rule))
            .append(" against ")
            .append(obligations).append('/').append(count);
      }
    });
    return text.toString();
  }
}
