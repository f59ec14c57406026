package dev.pawl.bench.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Scanner;

/** The foreign libraries, beside Pawl's times of the same run. */
final class Peers {

  private static final int RULES = 40;

  private final BenchSettings settings;
  private final Programs programs;
  private final Table table;
  private final Path errors;

  Peers(BenchSettings settings, Programs programs, Table table, Path errors) {
    this.settings = settings;
    this.programs = programs;
    this.table = table;
    this.errors = errors;
  }

  void measure(Path trace, Contestant two, Contestant forty) throws IOException {
    table.title("Beside foreign libraries, each on one thread");
    if (settings.peers().isEmpty()) {
      table.note("left out: the class path of the foreign libraries was not given");
      return;
    }
    ObligationCounts counts = ObligationCounts.ofReport(programs.pawl("pawl check --format json", RULES,
        List.of("--format", "json"), List.of(trace), settings.rows()).run(errors).output());
    sql(trace, counts, two, forty);
    events(trace, counts, two);
  }

  private void sql(Path trace, ObligationCounts counts, Contestant two, Contestant forty) throws IOException {
    Contestant sql = programs.sql("many", trace, settings.rows());
    String output = sql.run(errors).output();
    ObligationCounts found = ObligationCounts.ofQueries(output);
    double load = 0;
    double first = 0;
    double queries = 0;
    int asked = 0;
    try (Scanner lines = new Scanner(output)) {
      load = Double.parseDouble(lines.nextLine().split(" ")[1]);
      while (lines.hasNextLine()) {
        queries += Double.parseDouble(lines.nextLine().split(" ")[3]);
        first = ++asked == 2 ? queries : first;
      }
    }
    table.head();
    table.line(sql);
    table.part("(b) SQL: loading", load, settings.rows());
    table.part("(b) SQL: loading and the two rules", load + first, settings.rows());
    table.part("(b) SQL: loading and " + asked + " of the forty rules", load + queries, settings.rows());
    double all = load + queries * RULES / asked;
    table.part("(b) SQL: extrapolated to forty rules", all, settings.rows());
    table.note("extrapolated: the queries' time by " + RULES + "/" + asked
        + "; the rules left out are the harder ones in SQL");
    table.ratio("pawl, two rules: times as fast as (b)", (load + first) / two.best(), 4);
    table.ratio("pawl, forty rules: times as fast as (b), extrapolated", all / forty.best(), 15);
    table.same("(b) and pawl, " + asked + " rules", counts.differences(found));
  }

  private void events(Path trace, ObligationCounts counts, Contestant two) throws IOException {
    Contestant peer = programs.events(trace, settings.eventRows());
    String output = peer.run(errors).output();
    double best = output.lines().mapToDouble(line -> Double.parseDouble(line.substring(line.lastIndexOf(' ') + 1)))
        .min().orElseThrow();
    double rate = settings.eventRows() / best;
    table.part("(c) event engine, two rules, events in memory", best, settings.eventRows());
    table.ratio("pawl, two rules: rate as a multiple of (c)", two.rate() / rate, 5);
    if (settings.eventRows() == settings.rows()) {
      table.same("(c) and pawl, two rules", counts.differences(ObligationCounts.ofLine(output)));
    }
  }
}
