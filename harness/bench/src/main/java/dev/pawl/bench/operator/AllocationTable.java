package dev.pawl.bench.operator;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.openjdk.jmh.profile.GCProfiler;
import org.openjdk.jmh.results.Result;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.Options;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/** Runs {@link EventPath} for the rule books and for every form, and prints time and allocated bytes of an event. */
public final class AllocationTable {

  private AllocationTable() {}

  /** Exits with 1 where a benchmark fails. Argument: a file for what JMH says meanwhile. */
  public static void main(String[] arguments) {
    List<String> forms = new ArrayList<>(List.of("two rules", "forty rules"));
    forms.addAll(Forms.RULES.keySet());
    Options options = new OptionsBuilder().include(EventPath.class.getName())
        .param("form", forms.toArray(String[]::new))
        .addProfiler(GCProfiler.class).output(arguments[0]).shouldFailOnError(true).build();
    try {
      print(new Runner(options).run(), System.out);
    } catch (RunnerException e) {
      System.err.println("JMH: " + e.getMessage());
      System.exit(1);
    }
  }

  private static void print(Iterable<RunResult> results, PrintStream out) {
    out.printf("  %-22s %10s %10s %12s%n", "rules", "ns/event", "+/-", "bytes/event");
    for (RunResult run : results) {
      Result<?> time = run.getPrimaryResult();
      out.printf(Locale.ROOT, "  %-22s %10.1f %10.1f %12.4f%n", run.getParams().getParam("form"), time.getScore(),
          time.getScoreError(), allocated(run));
    }
  }

  private static double allocated(RunResult run) {
    return run.getSecondaryResults().entrySet().stream().filter(result -> result.getKey().contains("alloc.rate.norm"))
        .mapToDouble(result -> result.getValue().getScore()).findFirst().orElse(Double.NaN);
  }
}
