package dev.pawl.bench.trace;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Position;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The measurement of a reader alone: rows per second into a sink that only adds up, first run and later runs of one
 * process.
 *
 * <p>Arguments: the trace, which is made if it is not there; the number of runs; {@code ahead} to decode on a second
 * thread.
 */
public final class ReaderBench {

  private ReaderBench() {}

  public static void main(String[] arguments) throws IOException {
    long begun = System.nanoTime();
    PrintStream out = System.out;
    if (arguments.length == 0) {
      out.println("usage: ReaderBench TRACE.csv [RUNS [ahead]]");
      return;
    }
    Path trace = Path.of(arguments[0]);
    if (!Files.exists(trace)) {
      out.println(make(trace));
    }
    int runs = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 5;
    TraceOptions options = TraceOptions.of(book()).withAhead(arguments.length > 2);
    for (int run = 1; run <= runs; run++) {
      long start = run == 1 && Files.size(trace) > 0 ? begun : System.nanoTime();
      out.println(measure(trace, options, run, start));
    }
  }

  private static CampaignTrace.Truth make(Path trace) throws IOException {
    try (OutputStream stream = Files.newOutputStream(trace)) {
      return CampaignTrace.FULL.writeTo(stream);
    }
  }

  private static String measure(Path trace, TraceOptions options, int run, long start) throws IOException {
    Sum sum = new Sum();
    long cpuStart = processor();
    try (TraceReader reader = Traces.open(trace, options)) {
      TraceSummary summary = reader.readTo(sum, Progress.NONE);
      TraceSummary.Counts counts = summary.counts();
      double seconds = (System.nanoTime() - start) / 1e9;
      double processor = (processor() - cpuStart) / 1e9;
      return String.format(Locale.ROOT,
          "run %d: %,d rows in %.3f s, %.1f million rows/s, %.0f MB/s; %.3f s of this thread's processor time; %s, "
              + "sum %x", run,
          counts.lines(), seconds, counts.lines() / seconds / 1e6, counts.bytes() / seconds / 1e6, processor,
              summary.outcome(),
          sum.total);
    }
  }

  private static long processor() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  /** The signals of {@link CampaignTrace}, without parsing its rules. */
  public static RuleBook book() {
    List<Signal> signals = new ArrayList<>();
    for (String name : CampaignTrace.SIGNALS) {
      ValueType type = switch (name) {
        case "lift_speed" -> new ValueType.Quantity("m/s", Dimension.SPEED, 1, 0);
        case "chain_current" -> new ValueType.Quantity("A", new Dimension(0, 0, 0, 1, 0, 0), 1, 0);
        default -> new ValueType.Bool();
      };
      signals.add(new Signal(signals.size(), name, Signal.Direction.INPUT, type, Position.NOWHERE));
    }
    return new RuleBook("Campaign", 0, signals, List.of(), List.of());
  }

  /** A sink that the compiler cannot remove. */
  private static final class Sum implements EventSink {

    private long total;

    @Override
    public void event(long time, int signal, long value, long line) {
      total += time ^ value + signal;
    }

    @Override
    public void advanceTo(long time) {
      total += time;
    }
  }
}
