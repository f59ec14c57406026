package dev.pawl.bench.trace;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.source.Source;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.BindingsFile;
import dev.pawl.trace.intake.Progress;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * The table of the readers' speed by the forms of times and of files: the same events in each form, read from memory.
 * What counts is the time for a byte beside the best of its kind; all forms of a kind must give the same events.
 */
public final class FormsTable {

  private static final double AIM = 1.6;

  private final PrintStream out;
  private final LogForms forms;
  private final int runs;

  private FormsTable(PrintStream out, LogForms forms, int runs) {
    this.out = out;
    this.forms = forms;
    this.runs = runs;
  }

  /**
   * Prints the table.
   *
   * @param arguments how many rows, and how often each form is read
   */
  public static void main(String[] arguments) throws IOException {
    int rows = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 2_000_000;
    int runs = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 7;
    CampaignTrace trace = new CampaignTrace(rows, Math.max(1, rows / 100), CampaignTrace.FULL.seed());
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    trace.writeTo(bytes);
    FormsTable table = new FormsTable(System.out, LogForms.of(bytes.toString(StandardCharsets.US_ASCII)), runs);
    table.out.printf("%nForms of times and of files: %,d events, read from memory, processor time, best of %d%n", rows,
        runs);
    table.kind("times, a row for each event", table.forms.times());
    table.kind("tables, a row for each event", table.forms.tables());
    table.kind("tables, a column for each signal", table.forms.wide());
    table.kind("JSON Lines", table.forms.objects());
  }

  private void kind(String name, List<LogForms.Form> kind) throws IOException {
    out.printf("%n  %-44s %9s %10s %10s %8s%n", name, "MB", "M rows/s", "ns/byte", "of best");
    double[] best = new double[kind.size()];
    long[] sums = new long[kind.size()];
    for (int run = 0; run < runs; run++) {
      for (int i = 0; i < best.length; i++) {
        Reading reading = read(kind.get(i));
        best[i] = run == 0 ? reading.seconds : Math.min(best[i], reading.seconds);
        sums[i] = reading.sum;
      }
    }
    double least = Double.MAX_VALUE;
    for (int i = 0; i < best.length; i++) {
      least = Math.min(least, best[i] / kind.get(i).bytes().length);
    }
    for (int i = 0; i < best.length; i++) {
      LogForms.Form form = kind.get(i);
      double ratio = best[i] / form.bytes().length / least;
      out.printf(Locale.ROOT, "  %-44s %9.1f %10.2f %10.3f %8.2f %s%n", form.name(), form.bytes().length / 1e6,
          form.rows() / best[i] / 1e6, best[i] / form.bytes().length * 1e9, ratio, ratio <= AIM ? "" : "  over " + AIM);
      if (sums[i] != sums[0]) {
        throw new IOException("the events of " + form.name() + " differ from those of " + kind.get(0).name());
      }
    }
  }

  private record Reading(double seconds, long sum) {}

  private static Reading read(LogForms.Form form) throws IOException {
    Bindings.Resolved resolved = Bindings.resolve(BindingsFile.parse(new Source("bench.bindings", form.bindings())),
        ReaderBench.book(), Set.of());
    TraceOptions options = TraceOptions.of(ReaderBench.book()).withBindings(resolved.bindings());
    Sum sum = new Sum();
    long start = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    try (TraceReader reader = Traces.open(new ByteArrayInputStream(form.bytes()), form.name(), options)) {
      TraceSummary summary = reader.readTo(sum, Progress.NONE);
      if (resolved.hasErrors() || summary.isRejected()) {
        throw new IOException(form.name() + ": " + resolved.diagnostics() + summary.diagnostics());
      }
    }
    return new Reading((ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - start) / 1e9, sum.total);
  }

  /** A sink that the compiler cannot remove; times count from the first. */
  private static final class Sum implements EventSink {

    private long total;
    private long first = Long.MIN_VALUE;

    @Override
    public void event(long time, int signal, long value, long line) {
      first = first == Long.MIN_VALUE ? time : first;
      total += (time - first) ^ value + signal;
    }

    @Override
    public void advanceTo(long time) {}
  }
}
