package dev.pawl.cli;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.report.model.Reading;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.intake.ProblemCount;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A recorded trace.
 *
 * @param trace its file
 * @param options how it is read
 */
record RecordedCourse(Path trace, TraceOptions options) implements Course {

  @Override
  public String name() {
    return trace.toString();
  }

  @Override
  public Optional<Path> file() {
    return Optional.of(trace);
  }

  /** Decoding ahead would run on past the end that the looker asks for. */
  @Override
  public Course forAnotherLook() {
    return new RecordedCourse(trace, options.withAhead(false));
  }

  @Override
  public Run begin(boolean[] needed) throws IOException {
    return new Reader(Traces.open(trace, options.withNeeded(needed)), options.lenient());
  }

  /** The reading of the trace. */
  private record Reader(TraceReader reader, boolean lenient) implements Run {

    @Override
    public EventSink heardBy(EventSink judge) {
      return judge;
    }

    @Override
    public boolean calendar() {
      return reader.calendar();
    }

    @Override
    public Played playTo(EventSink sink, Progress progress) throws IOException {
      TraceSummary summary = reader.readTo(sink, progress);
      return new Played(summary.calendar(), summary.lines(), summary.events(), summary.end(),
          summary.outcome() == TraceSummary.Outcome.INTERRUPTED, summary.isRejected(), summary.silent(), met(summary));
    }

    private Reading met(TraceSummary summary) {
      List<Reading.Counter> counters = new ArrayList<>();
      for (ProblemCount problem : summary.isRejected() ? List.<ProblemCount>of() : summary.problems()) {
        counters.add(new Reading.Counter(problem.kind().label() + " (first in line " + problem.firstLine() + ")",
            problem.count()));
      }
      if (summary.finerTimes() > 0) {
        counters.add(new Reading.Counter((summary.finerTimes() == 1 ? "time" : "times") + " finer than a nanosecond, cut off there",
            summary.finerTimes()));
      }
      List<Reading.Problem> problems = summary.diagnostics().stream().map(Reader::problem).toList();
      return new Reading(counters, problems, summary.problemTotal(), summary.isRejected() ? refusal(summary) : "");
    }

    private String refusal(TraceSummary summary) {
      boolean helps = !lenient && summary.problems().stream().noneMatch(problem -> problem.kind() == ProblemKind.UNREADABLE);
      return summary.problemLine() + "; nothing of it was judged" + (helps ? " (--lenient leaves such rows out)" : "");
    }

    private static Reading.Problem problem(Diagnostic diagnostic) {
      String hint = diagnostic.hint().isEmpty() ? "" : " (" + diagnostic.hint() + ")";
      return new Reading.Problem(diagnostic.position().line(), diagnostic.message() + hint);
    }

    @Override
    public void close() throws IOException {
      reader.close();
    }
  }
}
