package dev.pawl.bench.table;

import dev.pawl.bench.trace.CampaignTrace;
import dev.pawl.bench.workload.CampaignFile;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The measurement of whole programs over whole traces, in the order in which the table shows them. */
public final class Campaign {

  private static final int START_RUNS = 10;
  private static final int SHORT_ROWS = 1_000;
  private static final int MANY_TRACES = 8;
  private static final double MEGABYTE = 1024;

  private final BenchSettings settings;
  private final Programs programs;
  private final Table table;
  private final Path errors;

  private Campaign(BenchSettings settings, PrintStream out) throws IOException {
    this.settings = settings;
    this.programs = new Programs(settings);
    this.table = new Table(out);
    this.errors = settings.data().resolve("errors.txt");
    Files.deleteIfExists(errors);
  }

  /** Prints the table; exits with 1 where something could not be measured or counts differ, 2 for wrong arguments. */
  public static void main(String[] arguments) {
    try {
      BenchSettings settings = BenchSettings.of(arguments);
      new Campaign(settings, System.out).run();
    } catch (IllegalArgumentException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    } catch (IOException e) {
      System.err.println("benchmark: " + e.getMessage());
      System.exit(1);
    }
  }

  private void run() throws IOException {
    if (settings.measures("logic")) {
      logic();
    }
    if (settings.measures("mqtt")) {
      table.title("Over a broker on this machine: the harness, beside the bare client library");
      table.text(programs.own("dev.pawl.bench.mqtt.BrokerTable").run(errors).output());
    }
    if (!List.of("logic", "mqtt").containsAll(settings.parts())) {
      traces();
    }
  }

  private void logic() throws IOException {
    table.title("The demo's controller in Structured Text, beside the same equations in Java");
    String program = settings.home().resolve("fixtures/kestrel-ridge/logic/kestrel-ridge.st").toString();
    table.text(programs.own("dev.pawl.bench.logic.LogicTable", program).run(errors).output());
    table.title("Rides in closed loop, warm, one thread");
    for (List<String> ride : List.of(List.of("kestrel-ridge", "trial"), List.of("fallow-loop", "ordinary-day"))) {
      String folder = settings.home().resolve("fixtures").resolve(ride.get(0)).toString();
      table.text(programs.own("dev.pawl.bench.ride.RideTable", folder, ride.get(1), "60").run(errors).output());
    }
  }

  private void traces() throws IOException {
    Path trace = CampaignFile.make(settings.data(), settings.rows());
    warmPageCache(trace);
    table.title(String.format("One trace: %,d rows, %,d bytes, one thread, whole process", settings.rows(),
        Files.size(trace)));
    Contestant scanner = programs.scanner(trace, settings.rows());
    Contestant two = programs.pawl("pawl check, two rules", 2, List.of("--jobs", "1"), List.of(trace), settings.rows());
    Contestant forty = programs.pawl("pawl check, forty rules", 40, List.of("--jobs", "1"), List.of(trace),
        settings.rows());
    if (settings.measures("check") || settings.measures("peers")) {
      check(scanner, two, forty, trace);
    }
    if (settings.measures("peers")) {
      new Peers(settings, programs, table, errors).measure(trace, two, forty);
    }
    if (settings.measures("jobs")) {
      jobs(trace);
    }
    if (settings.measures("memory")) {
      memory(trace);
    }
    if (settings.measures("start")) {
      start();
    }
    if (settings.measures("series")) {
      table.text(programs.own("dev.pawl.bench.series.GrowthSeries").run(errors).output());
    }
    if (settings.measures("allocation")) {
      table.title("Time and allocation of one event in the engine, by JMH with its gc profiler");
      String log = settings.data().resolve("jmh.txt").toString();
      table.text(programs.own("dev.pawl.bench.operator.AllocationTable", log).run(errors).output());
    }
  }

  private static void warmPageCache(Path file) throws IOException {
    Files.newInputStream(file).transferTo(OutputStream.nullOutputStream());
  }

  private void check(Contestant scanner, Contestant two, Contestant forty, Path trace) throws IOException {
    rounds(List.of(scanner, two, forty));
    table.head();
    table.line(scanner);
    table.line(two);
    table.line(forty);
    table.ratio("pawl, two rules: rate as a part of (a)", two.rate() / scanner.rate(), 0.5);
    table.ratio("pawl, forty rules: rate as a part of (a)", forty.rate() / scanner.rate(), 0.25);
    ObligationCounts counts = ObligationCounts.ofReport(json(2, trace));
    table.same("(a) and pawl, two rules", counts.differences(ObligationCounts.ofLine(scanner.lastOutput())));
    if (settings.rows() == CampaignTrace.FULL.rows()) {
      table.note("obligations and misses: " + counts.arose() + " " + counts.missed());
    }
  }

  private String json(int rules, Path trace) throws IOException {
    return programs.pawl("pawl check --format json", rules, List.of("--format", "json"), List.of(trace),
        settings.rows()).run(errors)
        .output();
  }

  /** Runs all of them in turn, so that a busy spell of the machine falls on all alike. */
  private void rounds(List<Contestant> contestants) throws IOException {
    for (int run = 0; run < settings.runs(); run++) {
      for (Contestant contestant : contestants) {
        contestant.run(errors);
      }
    }
  }

  private void jobs(Path trace) throws IOException {
    Path other = settings.data().resolve("other-" + settings.rows() + ".csv");
    if (!Files.exists(other)) {
      CampaignFile.copy(trace, other);
    }
    List<Path> both = List.of(trace, other);
    table.title("Two threads, forty rules");
    Contestant one = programs.pawl("two traces, --jobs 1", 40, List.of("--jobs", "1"), both, 2 * settings.rows());
    Contestant two = programs.pawl("two traces, --jobs 2", 40, List.of("--jobs", "2"), both, 2 * settings.rows());
    Contestant alone = programs.pawl("one trace, --jobs 1", 40, List.of("--jobs", "1"), List.of(trace),
        settings.rows());
    Contestant ahead = programs.pawl("one trace, --jobs 2 (divides the rules)", 40, List.of("--jobs", "2"),
        List.of(trace), settings.rows());
    List<Path> many = links(trace, MANY_TRACES);
    Contestant manyOne = programs.pawl(MANY_TRACES + " traces, --jobs 1", 40, List.of("--jobs", "1"), many,
        MANY_TRACES * settings.rows());
    Contestant manyTwo = programs.pawl(MANY_TRACES + " traces, --jobs 2", 40, List.of("--jobs", "2"), many,
        MANY_TRACES * settings.rows());
    Contestant scan = programs.scanner(trace, settings.rows());
    Contestant scans = programs.scanners(trace, other, 2 * settings.rows());
    List<Contestant> all = List.of(one, two, manyOne, manyTwo, alone, ahead, scan, scans);
    rounds(all);
    table.head();
    all.forEach(table::line);
    table.ratio("two traces: two threads over one", two.rate() / one.rate(), 1.8);
    table.ratio(MANY_TRACES + " traces: two threads over one", manyTwo.rate() / manyOne.rate(), 1.8);
    table.ratio("what this machine gives: (a), two processes over one", scans.rate() / scan.rate());
    table.ratio("one trace: two threads over one", ahead.rate() / alone.rate(), 1);
  }

  /** More traces with the bytes of one, so that they cost no disk. */
  private List<Path> links(Path trace, int count) throws IOException {
    List<Path> links = new ArrayList<>();
    for (int i = 1; i <= count; i++) {
      Path link = settings.data().resolve("link-" + i + ".csv");
      Files.deleteIfExists(link);
      links.add(Files.createLink(link, trace));
    }
    return links;
  }

  private void memory(Path trace) throws IOException {
    table.title("Peak memory of the process, forty rules");
    List<Contestant> all = new ArrayList<>();
    all.add(programs.pawl(String.format("%,d rows", settings.rows()), 40, List.of("--jobs", "1"), List.of(trace),
        settings.rows()));
    Path large = null;
    if (settings.large() > 0) {
      large = CampaignFile.make(settings.data(), settings.large());
      all.add(programs.pawl(String.format("%,d rows", settings.large()), 40, List.of("--jobs", "1"), List.of(large),
          settings.large()));
    }
    for (Contestant each : all) {
      each.run(errors);
    }
    table.head();
    all.forEach(table::line);
    for (Contestant each : all) {
      table.bound("peak of " + each.name() + ", MB", each.peakKilobytes() / MEGABYTE, 256, "MB");
    }
    if (large != null) {
      Files.delete(large);
    }
  }

  private void start() throws IOException {
    Path shortTrace = CampaignFile.make(settings.data(), SHORT_ROWS);
    table.title("Start: from the command to its end, launcher and all");
    Contestant check = programs.pawl("pawl check, two rules, 1,000 rows", 2, List.of(), List.of(shortTrace),
        SHORT_ROWS);
    Contestant forty = programs.pawl("pawl check, forty rules, 1,000 rows", 40, List.of(), List.of(shortTrace),
        SHORT_ROWS);
    for (int run = 0; run < START_RUNS; run++) {
      check.run(errors);
      forty.run(errors);
    }
    table.head();
    table.line(check);
    table.line(forty);
    table.bound("pawl check of 1,000 rows, best of " + START_RUNS, check.best(), 0.4, "s");
  }
}
