package dev.pawl.trace.fuzz;

import com.github.luben.zstd.Zstd;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.trace.Books;
import dev.pawl.trace.TraceFormat;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.BindingsFile;
import dev.pawl.trace.intake.Progress;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * What must hold of any bytes at all, read as a trace or as a bindings file. They may be wrong in every way, but then
 * the summary says so: whatever is thrown is a fault, and so is a broken promise, for which these methods throw an
 * {@link AssertionError}.
 */
final class Oracles {

  private static final TraceOptions STRICT = TraceOptions.of(Books.LIFT);

  private Oracles() {}

  /** What one reading gave. */
  private record Reading(TraceSummary summary, OrderSink sink) {

    static Reading of(byte[] bytes, TraceOptions options) {
      OrderSink sink = new OrderSink(options.book());
      try (TraceReader reader = Traces.open(new ByteArrayInputStream(bytes), "fuzz", options)) {
        return new Reading(reader.readTo(sink, Progress.NONE), sink);
      } catch (IOException problem) {
        throw new UncheckedIOException("bytes in memory can always be read", problem);
      }
    }
  }

  /** Strict and lenient reading find the same problems, and lose nothing in silence. */
  static void readTrace(byte[] bytes, Optional<TraceFormat> format) {
    readTrace(bytes, format.map(STRICT::withFormat).orElse(STRICT));
  }

  private static TraceSummary readTrace(byte[] bytes, TraceOptions options) {
    Reading strict = Reading.of(bytes, options);
    Reading lenient = Reading.of(bytes, options.withLenient(true));
    TraceSummary summary = strict.summary();
    boolean sound = summary.problemTotal() == 0;
    Expect.that(summary.isRejected() != sound, "outcome " + summary.outcome() + " with " + summary.problemLine());
    Expect.that(summary.diagnostics().isEmpty() == sound, "problems that are not told: " + summary.problemLine());
    Expect.that(summary.problems().equals(lenient.summary().problems()), "lenient reading finds other problems");
    long sent = summary.counts().sent();
    Expect.that(sent == strict.sink().events(), "sent " + sent + ", received " + strict.sink().events());
    Expect.that(strict.sink().digest() == lenient.sink().digest(), "lenient reading sends other events");
    for (Diagnostic diagnostic : summary.diagnostics()) {
      Expect.that(diagnostic.position().line() >= 1 && diagnostic.position().column() >= 1 && !diagnostic.message()
          .isBlank(), "not a place or nothing said: " + diagnostic);
    }
    return summary;
  }

  /** What is stated of a site's own forms keeps the same promises, whatever the bytes are. */
  static void readStated(byte[] bytes) {
    for (Bindings bindings : SITES) {
      readTrace(bytes, STRICT.withBindings(bindings));
    }
  }

  private static final List<Bindings> SITES = Stream.of(
      "time\n zone Europe/Vienna\n twice in order\ncolumns\n time Date Time\n separator semicolon\n decimal "
          + "comma\nignore\n \"*\"\n",
      "time\n written \"day.month.year hour:minute:second ampm\"\n zone UTC\ncolumns\n time stamp\n header line 2\n "
          + "rows from 4\n",
      "time\n written hour:minute:second\ncolumns\n header none\n names time, lift_run, lift_speed, mode\n unnamed "
          + "first\n",
      "time\n unit us since 1970\ncolumns\n time \"/head/ts\"\nsignals\n lift_run from \"/bits/0\"\n lift_speed from "
          + "\"/drive/v\"\n"
          + "values\n true ON\n false OFF\n unknown NaN\nignore\n \"/drive/*\"\n")
      .map(text -> Bindings.resolve(BindingsFile.parse(new Source("fuzz.bindings", text)), Books.LIFT, Set.of())
          .bindings()).toList();

  /** Packing changes nothing, unless the bytes start as packed ones do: those are unpacked once only. */
  static void readPacked(byte[] bytes) {
    if (bytes.length > 0 && (bytes[0] == 0x1F || bytes[0] == 0x28 || bytes[0] == (byte) 0xFD || bytes[0] == 'P')) {
      return;
    }
    Reading plain = Reading.of(bytes, STRICT.withFormat(TraceFormat.CSV).withLenient(true));
    Reading packed = Reading.of(Zstd.compress(bytes), STRICT.withFormat(TraceFormat.CSV).withLenient(true));
    Expect.that(plain.sink().digest() == packed.sink().digest(), "other events when packed");
    Expect.that(plain.summary().diagnostics().equals(packed.summary().diagnostics()), "other problems when packed");
  }

  /** A bindings file is understood or has errors, each with a place in it; what is understood can be read with. */
  static void bind(byte[] bytes) {
    Source source = new Source("fuzz.bindings", new String(bytes, StandardCharsets.UTF_8));
    Bindings.Resolved resolved = Bindings.resolve(BindingsFile.parse(source), Books.LIFT, Set.of("topics"));
    long lines = source.text().split("\r\n|\n|\r", -1).length;
    for (Diagnostic diagnostic : resolved.diagnostics()) {
      int line = diagnostic.position().line();
      Expect.that(line >= 1 && line <= lines && diagnostic.position().column() >= 1 && !diagnostic.message().isBlank(),
          "not a place or nothing said: " + diagnostic);
    }
    new DiagnosticRenderer(List.of(source)).render(resolved.diagnostics());
    TraceOptions options = STRICT.withBindings(resolved.bindings()).withLenient(true);
    for (String trace : BOUND) {
      Reading.of(trace.getBytes(StandardCharsets.UTF_8), options);
    }
  }

  /** Traces with the tags that the committed bindings files name, and with the signals' own names. */
  private static final List<String> BOUND = List.of(
      "stamp;tag name;val;q\n0;LIFT.K1 RUN;0;good\n0;ES_STATE;HEALTHY;good\n1;LIFT.SPD;2682.24;good\n2;LIFT.MODE;20;bad\n",
      "time_ms,signal,value\n0,lift_run,1\n0,K1,0\n1,lift_speed,-2.5e3\n1,motor_heat,0\n2,mode,manual\n",
      "{\"time_ms\": 5, \"signal\": \"lift_run\", \"value\": 1}\n{\"time_ms\": 6, \"values\": {\"mode\": \"off\"}}\n",
      "$timescale 1 ms $end\n$var wire 1 ! lift_run $end\n$var reg 2 \" mode $end\n$enddefinitions $end\n#0\n1!\nb01 "
          + "\"\n#5\n");
}
