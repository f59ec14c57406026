package dev.pawl.run.source;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.report.model.Reading;
import dev.pawl.run.EventSource;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.intake.ProblemCount;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A recorded trace.
 *
 * @param trace its file
 * @param options how it is read
 * @param control what was met when it was recorded from a controller
 */
public record RecordedSource(Path trace, TraceOptions options, Reading control) implements EventSource {

  public RecordedSource(Path trace, TraceOptions options) {
    this(trace, options, Reading.CLEAN);
  }

  @Override
  public String name() {
    return trace.toString();
  }

  @Override
  public Optional<Path> file() {
    return Optional.of(trace);
  }

  @Override
  public boolean reacts() {
    return false;
  }

  /** Decoding ahead would run on past the end that the looker asks for. */
  @Override
  public EventSource forAnotherLook() {
    return new RecordedSource(trace, options.withAhead(false), control);
  }

  @Override
  public Run begin(boolean[] needed) throws IOException {
    return new Reader(Traces.open(trace, options.withNeeded(needed)), options, control);
  }

  /** The reading of the trace. */
  private record Reader(TraceReader reader, TraceOptions options, Reading control) implements Run {

    @Override
    public EventSink heardBy(EventSink judge) {
      return judge;
    }

    @Override
    public boolean calendar() {
      return reader.calendar();
    }

    @Override
    public Optional<ZoneId> zone() {
      return options.bindings().time().zone();
    }

    @Override
    public Summary runTo(EventSink sink, Progress progress) throws IOException {
      TraceSummary summary = reader.readTo(sink, progress);
      boolean interrupted = summary.outcome() == TraceSummary.Outcome.INTERRUPTED;
      Extent extent = new Extent(summary.counts().lines(), summary.counts().events(), summary.times().end(),
          interrupted);
      return new Summary(extent, summary.silent(), met(summary, options.lenient()), control);
    }

    @Override
    public void close() throws IOException {
      reader.close();
    }
  }

  /** What was met in the reading of a trace. */
  static Reading met(TraceSummary summary, boolean lenient) {
    List<Reading.Counter> counters = new ArrayList<>();
    for (ProblemCount problem : summary.isRejected() ? List.<ProblemCount>of() : summary.problems()) {
      counters.add(new Reading.Counter(problem.kind().label() + " (first in line " + problem.firstLine() + ")",
          problem.count()));
    }
    if (summary.times().finer() > 0) {
      counters.add(new Reading.Counter((summary.times().finer() == 1 ? "time" : "times")
          + " finer than a nanosecond, cut off there",
          summary.times().finer()));
    }
    List<Reading.Problem> problems = summary.diagnostics().stream().map(RecordedSource::problem).toList();
    return new Reading(counters, problems, summary.problemTotal(), summary.isRejected() ? refusal(summary, lenient)
        : "");
  }

  private static String refusal(TraceSummary summary, boolean lenient) {
    boolean helps = !lenient && summary.problems().stream()
        .noneMatch(problem -> problem.kind() == ProblemKind.UNREADABLE);
    return summary.problemLine() + "; nothing of it was judged" + (helps ? " (--lenient leaves such rows out)" : "");
  }

  private static Reading.Problem problem(Diagnostic diagnostic) {
    String hint = diagnostic.hint().isEmpty() ? "" : " (" + diagnostic.hint() + ")";
    return new Reading.Problem(diagnostic.position().line(), diagnostic.message() + hint);
  }
}
