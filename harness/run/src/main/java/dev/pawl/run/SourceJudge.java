package dev.pawl.run;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.divided.DividedEngine;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.collect.FindingCollector;
import dev.pawl.report.collect.ResultBuilder;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.picture.PictureRecorder;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** The judging of one source, from its first event to its result. */
public final class SourceJudge {

  private static final int NAMED_SIGNALS = 12;
  /** Findings of each rule and zone that get a picture. */
  private static final int PICTURES = 5;

  private final RuleBook book;
  private final int findings;
  private final boolean pictures;
  private final int threads;

  /**
   * A judge by one rule book.
   *
   * @param findings how many findings are kept of each rule
   * @param pictures whether findings get pictures, which takes a second, shorter look at the source
   * @param threads how many threads judge the rules of one source
   */
  public SourceJudge(RuleBook book, int findings, boolean pictures, int threads) {
    this.book = book;
    this.findings = findings;
    this.pictures = pictures;
    this.threads = threads;
  }

  /** Judges a source; what goes wrong with it is in the result. */
  public TraceResult judge(EventSource source, Progress progress) {
    FindingCollector collector = new FindingCollector(book, findings);
    try (DividedEngine engine = new DividedEngine(book, new EngineOptions(true, findings), collector, threads)) {
      boolean[] needed = needed(engine);
      TraceResult result = judged(source, needed, progress, engine, collector);
      return pictures && !result.rules().isEmpty() ? drawn(source.forAnotherLook(), needed, result) : result;
    }
  }

  private TraceResult judged(EventSource source, boolean[] needed, Progress progress, DividedEngine engine,
      FindingCollector collector) {
    try (EventSource.Run run = source.begin(needed)) {
      EventSource.Summary summary = run.runTo(run.heardBy(engine), progress);
      Reading reading = reading(summary, engine);
      if (summary.isRejected()) {
        return TraceResult.unreadable(source.name(), reading);
      }
      EventSource.Extent extent = summary.extent();
      TraceOutcome outcome = extent.end().isPresent() ? engine.finish(extent.end().getAsLong()) : engine.finish();
      TimeBase base = run.calendar() ? TimeBase.EPOCH : TimeBase.START;
      boolean partial = extent.interrupted() || !summary.control().failure().isEmpty();
      return new ResultBuilder(book, source.name(), base, run::writer)
          .build(outcome, collector, reading, extent.lines(), extent.events(), partial);
    } catch (IOException e) {
      return TraceResult.unreadable(source.name(), new Reading(List.of(), List.of(), 0, FileTrouble.reason(e)));
    }
  }

  private boolean[] needed(DividedEngine engine) {
    boolean[] needed = new boolean[book.signals().size()];
    for (int signal = 0; signal < needed.length; signal++) {
      needed[signal] = engine.needs(signal);
    }
    return needed;
  }

  /** The second look, which ends as soon as all pictures are complete. */
  private TraceResult drawn(EventSource source, boolean[] needed, TraceResult result) {
    PictureRecorder recorder = new PictureRecorder(book, result, PICTURES);
    if (recorder.hasEnough()) {
      return result;
    }
    try (EventSource.Run run = source.begin(needed)) {
      run.runTo(run.heardBy(recorder), (bytes, lines) -> !recorder.hasEnough());
    } catch (IOException e) {
      return result;
    }
    return recorder.result();
  }

  private Reading reading(EventSource.Summary summary, DividedEngine engine) {
    Reading met = summary.reading();
    List<Reading.Counter> counters = new ArrayList<>(met.counters());
    List<String> silent = summary.silent().stream().filter(engine::needs)
        .map(signal -> book.signals().get(signal).name()).toList();
    if (!silent.isEmpty() && !summary.isRejected()) {
      counters.add(new Reading.Counter((silent.size() == 1 ? "signal that rules need has no event, and stays unknown: "
          : "signals that rules need have no event, and stay unknown: ") + names(silent), silent.size()));
    }
    counters.addAll(summary.control().counters());
    return new Reading(counters, met.problems(), met.problemCount(),
        met.failure().isEmpty() ? summary.control().failure() : met.failure());
  }

  private static String names(List<String> names) {
    return String.join(", ", names.subList(0, Math.min(NAMED_SIGNALS, names.size()))) + (names.size() > NAMED_SIGNALS
        ? ", ..."
        : "");
  }
}
