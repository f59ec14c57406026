package dev.pawl.run;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.groups.DividedEngine;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.collect.FindingCollector;
import dev.pawl.report.collect.ResultBuilder;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.picture.PictureRecorder;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.trace.intake.Progress;
import dev.pawl.trace.sampling.StatedSampling;
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
  private final StatedSampling stated;

  /**
   * A judge by one rule book.
   *
   * @param findings how many findings are kept of each rule
   * @param pictures whether findings get pictures, which takes a second, shorter look at the source
   * @param threads how many threads judge the rules of one source
   */
  public SourceJudge(RuleBook book, int findings, boolean pictures, int threads) {
    this(book, findings, pictures, threads, StatedSampling.NONE);
  }

  /** The same, where it is stated how signals were looked at. */
  public SourceJudge(RuleBook book, int findings, boolean pictures, int threads, StatedSampling stated) {
    this.book = book;
    this.findings = findings;
    this.pictures = pictures;
    this.threads = threads;
    this.stated = stated;
  }

  /**
   * Judges a source; what goes wrong with it is in the result. While it is judged its rows are measured, and where they
   * show that signals were looked at every now and then only, it is judged once more with that known.
   */
  public TraceResult judge(EventSource source, Progress progress) {
    Sampled sampled = new Sampled(book, stated);
    Judged first = judged(source, sampled, progress);
    boolean again = first.whole() && !source.reacts() && sampled.measure();
    Judged judged = again ? judged(source.forAnotherLook(), sampled, progress) : first;
    TraceResult result = judged.result();
    return source.examined(pictures && !result.rules().isEmpty()
        ? drawn(source.forAnotherLook(), judged.needed(), result) : result);
  }

  /** A source that has been judged, and whether to its end. */
  private record Judged(TraceResult result, boolean[] needed, boolean whole) {}

  private Judged judged(EventSource source, Sampled sampled, Progress progress) {
    FindingCollector collector = new FindingCollector(book, findings);
    EngineOptions options = new EngineOptions(true, findings, sampled.sampling());
    try (DividedEngine engine = new DividedEngine(book, options, collector, threads)) {
      boolean[] needed = needed(engine);
      TraceResult result = judged(source, needed, progress, engine, collector, sampled);
      return new Judged(result, needed, !result.rules().isEmpty() && !result.partial());
    }
  }

  private TraceResult judged(EventSource source, boolean[] needed, Progress progress, DividedEngine engine,
      FindingCollector collector, Sampled sampled) {
    try (EventSource.Run run = source.begin(needed)) {
      EventSource.Summary summary = run.runTo(run.heardBy(sampled.before(engine, needed)), progress);
      EventSource.Extent extent = summary.extent();
      extent.end().ifPresent(sampled::finish);
      TimeBase base = !run.calendar() ? TimeBase.START : run.zone().map(zone -> TimeBase.in(zone.getId()))
          .orElse(TimeBase.EPOCH);
      Reading reading = reading(summary, engine, sampled, base);
      if (summary.isRejected()) {
        return TraceResult.unreadable(source.name(), reading);
      }
      TraceOutcome outcome = extent.end().isPresent() ? engine.finish(extent.end().getAsLong()) : engine.finish();
      boolean partial = extent.interrupted() || !summary.control().failure().isEmpty();
      return new ResultBuilder(book, source.name(), base, run)
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

  private Reading reading(EventSource.Summary summary, DividedEngine engine, Sampled sampled, TimeBase base) {
    Reading met = summary.reading();
    List<Reading.Counter> counters = new ArrayList<>(met.counters());
    List<String> silent = summary.silent().stream().filter(engine::needs)
        .map(signal -> book.signals().get(signal).name()).toList();
    if (!silent.isEmpty() && !summary.isRejected()) {
      counters.add(new Reading.Counter((silent.size() == 1 ? "signal that rules need has no event, and stays unknown: "
          : "signals that rules need have no event, and stay unknown: ") + names(silent), silent.size()));
    }
    if (!summary.isRejected()) {
      counters.addAll(sampled.counters(base));
    }
    counters.addAll(summary.control().counters());
    return new Reading(counters, met.problems(), met.problemCount(),
        met.failure().isEmpty() ? summary.control().failure() : met.failure());
  }

  /** The first of some names. */
  public static String names(List<String> names) {
    return String.join(", ", names.subList(0, Math.min(NAMED_SIGNALS, names.size())))
        + (names.size() > NAMED_SIGNALS ? ", ..."
        : "");
  }
}
