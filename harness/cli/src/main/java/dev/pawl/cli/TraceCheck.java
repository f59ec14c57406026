package dev.pawl.cli;

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
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;

/** The judging of one course, from its first event to its result. */
final class TraceCheck implements Judge {

  private static final int NAMED_SIGNALS = 12;
  /** Findings of each rule and zone that get a picture. */
  private static final int PICTURES = 5;

  private final RuleBook book;
  private final Drive drive;
  private final int findings;
  private final boolean pictures;
  private final int threads;

  /**
   * A judge by one rule book.
   *
   * @param drive what stands between courses and the judge
   * @param findings how many findings are kept of each rule
   * @param pictures whether findings get pictures, which takes a second, shorter look at the course
   * @param threads how many threads judge the rules of one course
   */
  TraceCheck(RuleBook book, Drive drive, int findings, boolean pictures, int threads) {
    this.book = book;
    this.drive = drive;
    this.findings = findings;
    this.pictures = pictures;
    this.threads = threads;
  }

  @Override
  public TraceResult run(Course course, Progress progress) {
    FindingCollector collector = new FindingCollector(book, findings);
    try (DividedEngine engine = new DividedEngine(book, new EngineOptions(true, findings), collector, threads)) {
      return judged(course, progress, engine, collector);
    }
  }

  private TraceResult judged(Course course, Progress progress, DividedEngine engine, FindingCollector collector) {
    boolean[] needed = needed(engine);
    Course.Played played;
    Drive.Run driven;
    OptionalLong end;
    try (Course.Run run = course.begin(needed)) {
      driven = drive.begin(course.name(), run.heardBy(engine), run::calendar, true);
      played = run.playTo(driven.sink(), progress);
      end = driven.finish(played.rejected() ? OptionalLong.empty() : played.end());
    } catch (IOException e) {
      return TraceResult.unreadable(course.name(), new Reading(List.of(), List.of(), 0, FileTrouble.reason(e)));
    }
    Reading reading = reading(played, driven, engine);
    if (played.rejected()) {
      return TraceResult.unreadable(course.name(), reading);
    }
    TraceOutcome outcome = end.isPresent() ? engine.finish(end.getAsLong()) : engine.finish();
    TimeBase base = played.calendar() ? TimeBase.EPOCH : TimeBase.START;
    TraceResult result = new ResultBuilder(book, course.name(), base, driven::writer).build(outcome, collector, reading,
        played.lines(),
        played.events(), played.interrupted() || !driven.failure().isEmpty());
    return pictures ? drawn(course.forAnotherLook(), needed, result) : result;
  }

  private boolean[] needed(DividedEngine engine) {
    boolean[] needed = new boolean[book.signals().size()];
    for (int signal = 0; signal < needed.length; signal++) {
      needed[signal] = engine.needs(signal) || drive.takes(signal);
    }
    return needed;
  }

  /** The second look, which ends as soon as all pictures are complete. */
  private TraceResult drawn(Course course, boolean[] needed, TraceResult result) {
    PictureRecorder recorder = new PictureRecorder(book, result, PICTURES);
    if (recorder.hasEnough()) {
      return result;
    }
    try (Course.Run run = course.begin(needed)) {
      Drive.Run driven = drive.begin(course.name(), run.heardBy(recorder), run::calendar, false);
      driven.finish(run.playTo(driven.sink(), (bytes, lines) -> !recorder.hasEnough()).end());
    } catch (IOException e) {
      return result;
    }
    return recorder.result();
  }

  private Reading reading(Course.Played played, Drive.Run driven, DividedEngine engine) {
    Reading met = played.reading();
    List<Reading.Counter> counters = new ArrayList<>(met.counters());
    List<String> silent = played.silent().stream().filter(signal -> engine.needs(signal) && !drive.gives(signal))
        .map(signal -> book.signals().get(signal).name()).toList();
    if (!silent.isEmpty() && !played.rejected()) {
      counters.add(new Reading.Counter((silent.size() == 1 ? "signal that rules need has no event, and stays unknown: "
          : "signals that rules need have no event, and stay unknown: ") + names(silent), silent.size()));
    }
    counters.addAll(driven.counters());
    return new Reading(counters, met.problems(), met.problemCount(), met.failure().isEmpty() ? driven.failure() : met.failure());
  }

  private static String names(List<String> names) {
    return String.join(", ", names.subList(0, Math.min(NAMED_SIGNALS, names.size()))) + (names.size() > NAMED_SIGNALS ? ", ..."
        : "");
  }
}
