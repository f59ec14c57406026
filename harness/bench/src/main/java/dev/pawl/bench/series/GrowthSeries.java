package dev.pawl.bench.series;

import dev.pawl.bench.workload.Books;
import dev.pawl.bench.workload.CampaignFile;
import dev.pawl.bench.workload.EventColumns;
import dev.pawl.bench.workload.Unheard;
import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.groups.DividedEngine;
import dev.pawl.grammar.rules.model.RuleBook;
import java.io.PrintStream;
import java.util.Locale;
import java.util.function.LongFunction;

/** Measures one quantity at several sizes and draws it: a line each, with a bar of the time per event. */
public final class GrowthSeries {

  private static final int ROWS = 1_000_000;
  private static final int REPEATS = 3;
  private static final int BAR = 50;
  private static final double BAR_NANOSECONDS = 250;

  private final PrintStream out;
  private final EventColumns events = EventColumns.of(CampaignFile.trace(ROWS));

  private GrowthSeries(PrintStream out) {
    this.out = out;
  }

  /** Prints all series. */
  public static void main(String[] arguments) {
    new GrowthSeries(System.out).run();
  }

  private void run() {
    RuleBook forty = Books.forty();
    measure(forty, ROWS, 4);
    title("Time against rows: forty rules; the time of an event must not grow", "rows");
    for (long times : new long[] {1, 2, 5, 10, 20}) {
      line(times * ROWS, measure(forty, ROWS, times));
    }
    sizes("Time against rules that an event touches: comparisons of the lift's speed, which is 9 % of the rows",
        "rules", new long[] {1, 10, 20, 40, 80, 160}, Scales::touched);
    sizes("Time against rules whose signals do not change, beside the two rules", "rules",
        new long[] {0, 10, 40, 160, 640}, Scales::idle);
    sizes("Time against the length of windows: count, max and mean, one rule each", "seconds",
        new long[] {1, 10, 100, 1_000, 10_000}, Scales::windows);
    sizes("Time against obligations open at once: a response that never comes, within ever longer times", "open",
        new long[] {3, 30, 300, 3_000, 30_000}, Scales::open);
  }

  private void sizes(String title, String unit, long[] sizes, LongFunction<RuleBook> books) {
    title(title, unit);
    for (long size : sizes) {
      RuleBook book = books.apply(size);
      measure(book, ROWS, 1);
      line(size, measure(book, ROWS, 1));
    }
  }

  /** Seconds for the rows brought so many times, each time later; the shortest of a few. */
  private double measure(RuleBook book, int rows, long times) {
    double best = Double.MAX_VALUE;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
      try (DividedEngine engine = new DividedEngine(book, EngineOptions.DEFAULT, new Unheard(), 1)) {
        long start = System.nanoTime();
        for (long time = 0; time < times; time++) {
          events.replay(engine, 0, rows, time * events.length());
        }
        engine.finish();
        best = Math.min(best, (System.nanoTime() - start) / 1e9 / times);
      }
    }
    return best;
  }

  private void title(String text, String unit) {
    out.printf("%n%s%n  %12s %10s%n", text, unit, "ns/event");
  }

  private void line(long size, double seconds) {
    double nanoseconds = seconds * 1e9 / ROWS;
    int length = (int) Math.min(BAR, Math.round(nanoseconds / BAR_NANOSECONDS * BAR));
    out.printf(Locale.ROOT, "  %,12d %10.1f  %s%s%n", size, nanoseconds, "#".repeat(length),
        nanoseconds > BAR_NANOSECONDS ? "+" : "");
  }
}
