package dev.pawl.bench.ride;

import dev.pawl.bench.workload.Unheard;
import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleEngine;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.logic.LogicHarness;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ScanOptions;
import dev.pawl.logic.SignalBinding;
import dev.pawl.plant.loop.RideLoop;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RideFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The table of closed loops: a scenario of a ride, warm, in processor time of one thread. The whole, with all rules
 * judged; the same without the judge; and the ride alone, which is told the outputs of that run again.
 */
public final class RideTable {

  private static final long SCAN = 10_000_000L;

  private final RuleFiles rules;
  private final RideFiles ride;
  private final Scenario scenario;
  private final LogicProgram program;
  private final SignalBinding binding;

  private RideTable(Path folder, String scenario) {
    String name = folder.getFileName().toString();
    rules = RuleFiles.load(List.of(folder.resolve(name + ".rules").toString()), List.of(folder.resolve("../../rules")
        .toString()), Optional.empty());
    ride = RideFiles.load(folder.resolve(name + ".ride").toString(), rules);
    this.scenario = ride.scenario(scenario).scenario();
    LogicFiles logic = LogicFiles.load(List.of(folder.resolve("logic/" + name + ".st").toString()));
    binding = logic.bind(rules, Map.of(), Set.of());
    program = logic.compile(binding, LogicOptions.DEFAULT);
  }

  /**
   * Prints the table.
   *
   * @param arguments a ride's folder, the name of a scenario, and how often each is run
   */
  public static void main(String[] arguments) {
    Path folder = Path.of(arguments[0]);
    if (!Files.isDirectory(folder)) {
      throw new IllegalArgumentException(folder + ": no such folder");
    }
    new RideTable(folder, arguments[1]).print(System.out, arguments.length > 2 ? Integer.parseInt(arguments[2]) : 15);
  }

  private void print(PrintStream out, int runs) {
    double whole = Double.MAX_VALUE;
    double unjudged = Double.MAX_VALUE;
    double moved = Double.MAX_VALUE;
    List<long[]> outputs = outputs();
    for (int run = 0; run < runs; run++) {
      whole = Math.min(whole, seconds(this::judged));
      unjudged = Math.min(unjudged, seconds(() -> controlled(new Nobody())));
      moved = Math.min(moved, seconds(() -> alone(outputs)));
    }
    double lasts = scenario.lasts();
    out.printf(Locale.ROOT, "%n%s, %s: %.0f s at a 10 ms scan, %d rules, best of %d runs in turns, processor time%n",
        ride.ride().name(), scenario.name(), lasts, rules.book().rules().size(), runs);
    line(out, "ride, logic and all rules", whole, lasts);
    line(out, "ride and logic", unjudged, lasts);
    line(out, "the ride alone", moved, lasts);
    out.printf(Locale.ROOT, "  share of the ride %.0f %%, of the logic %.0f %%, of the rules %.0f %%%n",
        100 * moved / whole, 100 * (unjudged - moved) / whole, 100 * (whole - unjudged) / whole);
  }

  private static void line(PrintStream out, String name, double seconds, double lasts) {
    out.printf(Locale.ROOT, "  %-28s %9.1f ms %9.0f times real time %8.0f ns a scan%n", name, seconds * 1e3, lasts
        / seconds, seconds * 1e9 / (lasts * 100));
  }

  private static double seconds(Runnable work) {
    ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    long start = threads.getCurrentThreadCpuTime();
    work.run();
    return (threads.getCurrentThreadCpuTime() - start) / 1e9;
  }

  private RideLoop loop() {
    return new RideLoop(ride.ride(), scenario, rules.book(), SCAN);
  }

  private void judged() {
    RuleEngine engine = new RuleEngine(rules.book(), EngineOptions.DEFAULT, new Unheard());
    engine.finish(controlled(engine));
  }

  /** The ride moved by the logic; returns the time of the last scan. */
  private long controlled(EventSink judge) {
    RideLoop loop = loop();
    EventSink both = loop.heardBy(judge);
    LogicHarness harness = new LogicHarness(program, binding, rules.book(), ScanOptions.DEFAULT, both);
    long end = loop.run(harness, scan -> true);
    harness.finish(end);
    return end;
  }

  /** What the logic put out, event by event. */
  private List<long[]> outputs() {
    RuleBook book = rules.book();
    List<long[]> outputs = new ArrayList<>();
    controlled(new Nobody() {
      @Override
      public void event(long time, int signal, long value, long line) {
        if (book.signals().get(signal).direction() == Signal.Direction.OUTPUT) {
          outputs.add(new long[] {time, signal, value});
        }
      }
    });
    return outputs;
  }

  private void alone(List<long[]> outputs) {
    RideLoop loop = loop();
    int[] next = {0};
    loop.run(new Nobody() {
      @Override
      public void advanceTo(long time) {
        while (next[0] < outputs.size() && outputs.get(next[0])[0] < time) {
          long[] output = outputs.get(next[0]++);
          loop.event(output[0], (int) output[1], output[2], 0);
        }
      }
    }, scan -> true);
  }

  /** Takes all and does nothing. */
  private static class Nobody implements EventSink {
    @Override
    public void event(long time, int signal, long value, long line) {}

    @Override
    public void advanceTo(long time) {}
  }
}
