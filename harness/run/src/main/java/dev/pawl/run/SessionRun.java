package dev.pawl.run;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.JudgedSource;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.picture.PictureBudget;
import dev.pawl.run.files.Digests;
import dev.pawl.run.files.FileStamp;
import dev.pawl.run.files.TraceFiles;
import dev.pawl.trace.sampling.StatedSampling;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;

/** The judging of several sources on as many threads as there are jobs; results come in the order of the sources. */
final class SessionRun {

  /** Up to so many have as many findings each as are asked for. */
  private static final int FEW_SOURCES = 10;
  /** Rules times sources, up to which the same holds. */
  private static final int FEW_RESULTS = 1000;

  private final SessionOptions options;
  private final List<Controller.Controlled> sources;
  /** How many sources the report has, of which these may be a part. */
  private final int of;
  private final SessionListener listener;
  private final Optional<EarlierResults> earlier;
  private final StatedSampling sampling;
  private final Map<Path, Input> hashed = new ConcurrentHashMap<>();
  /** The files as they were before the first look at each. */
  private final Map<Path, FileStamp> stamps = new ConcurrentHashMap<>();
  private final PictureBudget pictures = new PictureBudget();
  private int notBegun;

  SessionRun(SessionOptions options, List<Controller.Controlled> sources, int of, SessionListener listener,
      Optional<EarlierResults> earlier, StatedSampling sampling) {
    this.options = options;
    this.sources = sources;
    this.of = of;
    this.listener = listener;
    this.earlier = earlier;
    this.sampling = sampling;
  }

  /** Judges all sources, and says how many were not begun because the end was wanted before. */
  List<JudgedSource> judge() {
    listener.begins(sources.stream().map(Controller.Controlled::source).toList());
    List<JudgedSource> judged = judgeEach();
    if (notBegun > 0) {
      listener.leftOut(notBegun);
    }
    return judged;
  }

  private List<JudgedSource> judgeEach() {
    List<JudgedSource> judged = new ArrayList<>();
    if (options.jobs() == 1 || sources.size() == 1 && !options.inputs()) {
      for (Controller.Controlled each : sources) {
        TraceResult result = tell(each.source(), run(each));
        judged.add(judged(each, result, hashed(each).map(file -> input(each.source(), file)).toList()));
      }
      return judged;
    }
    ExecutorService workers = Executors.newFixedThreadPool(options.jobs());
    try {
      List<Future<Optional<TraceResult>>> waiting = new ArrayList<>();
      List<List<Future<Input>>> inputs = new ArrayList<>();
      for (Controller.Controlled each : sources) {
        waiting.add(workers.submit(() -> run(each)));
        inputs.add(hashed(each).map(file -> workers.submit(() -> input(each.source(), file))).toList());
      }
      List<TraceResult> results = new ArrayList<>();
      for (int source = 0; source < sources.size(); source++) {
        results.add(tell(sources.get(source).source(), get(waiting.get(source))));
      }
      for (int source = 0; source < sources.size(); source++) {
        judged.add(judged(sources.get(source), results.get(source),
            inputs.get(source).stream().map(SessionRun::get).toList()));
      }
    } finally {
      workers.shutdown();
    }
    return judged;
  }

  private static JudgedSource judged(Controller.Controlled each, TraceResult result, List<Input> inputs) {
    return new JudgedSource(result, inputs, each.cautions(), each.endedEarly());
  }

  /** The files that the report names. */
  private Stream<Path> hashed(Controller.Controlled each) {
    return options.inputs() ? each.source().files().stream() : Stream.empty();
  }

  private TraceResult tell(EventSource source, Optional<TraceResult> result) {
    result.ifPresent(listener::judged);
    notBegun += result.isPresent() ? 0 : 1;
    return result.map(pictures::within).orElseGet(() -> TraceResult.unreadable(source.name(),
        new Reading(List.of(), List.of(), 0, "interrupted before this trace")));
  }

  private Input input(EventSource source, Path file) {
    Input.Role role = source.reacts() ? Input.Role.RIDE : Input.Role.TRACE;
    return hashed.computeIfAbsent(file, it -> {
      stamp(it);
      Input input = Digests.of(role, it.toString());
      requireUnchanged(it);
      return input;
    });
  }

  private void stamp(Path file) {
    stamps.computeIfAbsent(file, FileStamp::of);
  }

  private void requireUnchanged(Path file) {
    if (!FileStamp.of(file).equals(stamps.get(file))) {
      throw Digests.changed(file.toString());
    }
  }

  /** Empty for a source that the end came before. */
  private Optional<TraceResult> run(Controller.Controlled each) {
    if (listener.isEndWanted()) {
      return Optional.empty();
    }
    Optional<Path> file = each.source().file();
    return Optional.of(earlier.isPresent() && file.isPresent()
        ? judge(each, input(each.source(), file.get()), earlier.get())
        : judge(each));
  }

  private TraceResult judge(Controller.Controlled each, Input trace, EarlierResults results) {
    Optional<TraceResult> before = trace.sha256().isEmpty() ? Optional.empty() : results.find(trace);
    if (before.isPresent()) {
      return before.get();
    }
    TraceResult result = judge(each);
    // What could not be judged, or not to its end, is tried again.
    if (!trace.sha256().isEmpty() && !result.rules().isEmpty() && !listener.isEndWanted()) {
      results.add(trace, result);
    }
    return result;
  }

  /** Judges what is also hashed: where a file was written to meanwhile, the two need not be of the same. */
  private TraceResult judge(Controller.Controlled each) {
    if (!options.inputs()) {
      return judged(each);
    }
    each.source().files().forEach(this::stamp);
    TraceResult result = judged(each);
    each.source().files().forEach(this::requireUnchanged);
    return result;
  }

  private TraceResult judged(Controller.Controlled each) {
    boolean large = of == 1 && each.source().file().filter(TraceFiles::isLarge).isPresent();
    int threads = large ? TraceThreads.of(options.jobs(), each.book()).judging() : 1;
    SourceJudge judge = new SourceJudge(each.book(), findings(each.book()), options.pictures(), threads, sampling);
    return judge.judge(each.source(), listener.progress());
  }

  /** How many findings are kept of each rule and source: many share what some have each. */
  private int findings(RuleBook book) {
    long most = options.findings();
    long results = (long) book.rules().size() * of;
    long shared = Math.min(most * FEW_SOURCES / Math.max(FEW_SOURCES, of),
        most * FEW_RESULTS / Math.max(FEW_RESULTS, results));
    return (int) (most == 0 ? 0 : Math.max(1, shared));
  }

  private static <T> T get(Future<T> future) {
    try {
      return future.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while waiting for a trace", e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof Error error) {
        throw error;
      }
      throw e.getCause() instanceof RuntimeException cause ? cause : new IllegalStateException(e.getCause());
    }
  }
}
