package dev.pawl.cli;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.report.collect.FindingCollector;
import dev.pawl.report.collect.ResultBuilder;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.picture.PictureRecorder;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.intake.ProblemCount;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The judging of one recorded trace, from its file to its result. */
final class TraceCheck {

  private static final int NAMED_SIGNALS = 12;
  /** Findings of each rule and zone that get a picture. */
  private static final int PICTURES = 5;

  private final RuleBook book;
  private final TraceOptions reading;
  private final int findings;
  private final boolean pictures;

  /**
   * A judge for traces of one rule book.
   *
   * @param reading how traces are read
   * @param findings how many findings are kept of each rule
   * @param pictures whether findings get pictures, which takes a second, shorter look at the trace
   */
  TraceCheck(RuleBook book, TraceOptions reading, int findings, boolean pictures) {
    this.book = book;
    this.reading = reading;
    this.findings = findings;
    this.pictures = pictures;
  }

  /** Judges a trace; what goes wrong with its file is in the result. */
  TraceResult run(Path trace, Progress progress) {
    FindingCollector collector = new FindingCollector(book, findings);
    RuleEngine engine = new RuleEngine(book, new EngineOptions(true, findings), collector);
    TraceOptions options = reading.withNeeded(needed(engine));
    TraceSummary summary;
    try (TraceReader reader = Traces.open(trace, options)) {
      summary = reader.readTo(engine, progress);
    } catch (IOException e) {
      return TraceResult.unreadable(trace.toString(), new Reading(List.of(), List.of(), 0, FileTrouble.reason(e)));
    }
    Reading met = reading(summary, engine);
    if (summary.isRejected()) {
      return TraceResult.unreadable(trace.toString(), met);
    }
    TraceOutcome outcome = summary.end().isPresent() ? engine.finish(summary.end().getAsLong()) : engine.finish();
    TimeBase base = summary.calendar() ? TimeBase.EPOCH : TimeBase.START;
    TraceResult result = new ResultBuilder(book, trace.toString(), base).build(outcome, collector, met, summary.lines(),
        summary.events(), summary.outcome() == TraceSummary.Outcome.INTERRUPTED);
    return pictures ? drawn(trace, options, result) : result;
  }

  private boolean[] needed(RuleEngine engine) {
    boolean[] needed = new boolean[book.signals().size()];
    for (int signal = 0; signal < needed.length; signal++) {
      needed[signal] = engine.needs(signal);
    }
    return needed;
  }

  /** The second look, which ends as soon as all pictures are complete. */
  private TraceResult drawn(Path trace, TraceOptions options, TraceResult result) {
    PictureRecorder recorder = new PictureRecorder(book, result, PICTURES);
    if (recorder.hasEnough()) {
      return result;
    }
    try (TraceReader reader = Traces.open(trace, options.withAhead(false))) {
      reader.readTo(recorder, (bytes, lines) -> !recorder.hasEnough());
    } catch (IOException e) {
      return result;
    }
    return recorder.result();
  }

  private Reading reading(TraceSummary summary, RuleEngine engine) {
    List<Reading.Counter> counters = new ArrayList<>();
    for (ProblemCount problem : summary.isRejected() ? List.<ProblemCount>of() : summary.problems()) {
      counters.add(new Reading.Counter(problem.kind().label() + " (first in line " + problem.firstLine() + ")", problem.count()));
    }
    if (summary.finerTimes() > 0) {
      counters.add(new Reading.Counter("times finer than a nanosecond, cut off there", summary.finerTimes()));
    }
    List<String> silent = summary.silent().stream().filter(engine::needs).map(signal -> book.signals().get(signal).name()).toList();
    if (!silent.isEmpty() && !summary.isRejected()) {
      counters.add(new Reading.Counter((silent.size() == 1 ? "signal that rules need has" : "signals that rules need have")
          + " no event, and stay unknown: " + names(silent), silent.size()));
    }
    List<Reading.Problem> problems = summary.diagnostics().stream().map(TraceCheck::problem).toList();
    return new Reading(counters, problems, summary.problemTotal(), summary.isRejected() ? refusal(summary) : "");
  }

  private static String names(List<String> names) {
    return String.join(", ", names.subList(0, Math.min(NAMED_SIGNALS, names.size()))) + (names.size() > NAMED_SIGNALS ? ", ..." : "");
  }

  private String refusal(TraceSummary summary) {
    return summary.problemLine() + "; nothing of it was judged" + (reading.lenient() ? "" : " (--lenient leaves such rows out)");
  }

  private static Reading.Problem problem(Diagnostic diagnostic) {
    String hint = diagnostic.hint().isEmpty() ? "" : " (" + diagnostic.hint() + ")";
    return new Reading.Problem(diagnostic.position().line(), diagnostic.message() + hint);
  }
}
