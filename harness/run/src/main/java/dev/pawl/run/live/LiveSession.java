package dev.pawl.run.live;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.Sampling;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.evidence.DoubtedVerdict;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.SenderClocks;
import dev.pawl.mqtt.live.LiveOptions;
import dev.pawl.mqtt.live.LiveResult;
import dev.pawl.mqtt.live.LiveRun;
import dev.pawl.mqtt.live.LiveSetting;
import dev.pawl.mqtt.live.Watching;
import dev.pawl.mqtt.page.LiveBoard;
import dev.pawl.mqtt.replay.Widening;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.report.exercise.Exercise;
import dev.pawl.report.exercise.ExerciseBoard;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.RunException;
import dev.pawl.run.Unjudged;
import dev.pawl.trace.bindings.StatedBeginning;
import dev.pawl.trace.sampling.Silences;
import dev.pawl.trace.sampling.StatedSampling;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;

/** One session on a live feed, which is judged as it comes or only recorded. It only listens. */
public final class LiveSession {

  private final RuleBook book;
  private final TopicBindings topics;
  private final LiveOptions options;
  private final HarnessClock clock;
  private StatedSampling stated = StatedSampling.NONE;
  private StatedBeginning beginning = StatedBeginning.NONE;
  private final Watching watching = new Watching();
  private Optional<LiveBoard> board = Optional.empty();
  private Optional<KeptEarlier> earlier = Optional.empty();

  /**
   * A session that has not begun.
   *
   * @param topics the places of signals
   */
  public LiveSession(RuleBook book, TopicBindings topics, LiveOptions options, HarnessClock clock) {
    this.book = book;
    this.topics = topics;
    this.options = options;
    this.clock = clock;
  }

  /** It is stated how signals are looked at, and for how long they may be silent. */
  public void take(StatedSampling sampling) {
    stated = sampling;
  }

  /** It is stated what signals are until something comes of them. */
  public void take(StatedBeginning values) {
    beginning = values;
  }

  /** News of the connection is told to this taker, in words. */
  public void tellNews(Consumer<String> taker) {
    watching.tell(taker);
  }

  /** Findings are told to this listener as they come. */
  public void tellFindings(FindingListener listener) {
    watching.add(listener);
  }

  /** It is told whenever all that has come is judged, so that findings of one time are all told. */
  public void tellSettled(Runnable taker) {
    watching.whenSettled(taker);
  }

  /** A picture of the session is drawn on this board, now and then. */
  public void drawOn(LiveBoard taker) {
    watching.add(taker);
    board = Optional.of(taker);
  }

  /** What an earlier session kept, and this one continues, is judged first. */
  public void goOnAfter(KeptEarlier rows) {
    earlier = Optional.of(rows);
  }

  /** What an earlier session kept. */
  @FunctionalInterface
  public interface KeptEarlier {

    /**
     * Tells a judge all of it.
     *
     * @return how many events there were
     */
    long tell(EventSink judge);
  }

  private void judgeAgain(KeptEarlier rows, Recording recording, EventSink judge) {
    recording.earlier().ifPresent(known -> {
      long[] events = new long[1];
      long findings = watching.again(() -> {
        events[0] = rows.tell(judge);
        known.forget(judge);
      });
      watching.say("what was kept is judged again: " + ValueText.count(events[0]) + " events and "
          + ValueText.count(findings) + (findings == 1 ? " finding, which is" : " findings, which are")
          + " not told again; what was open goes on");
    });
  }

  /**
   * Judges the feed until told to stop.
   *
   * @param recording where the feed is recorded too
   * @throws RunException if there is no feed
   */
  public LiveOutcome watch(ConnectionSettings settings, Optional<Recording> recording, BooleanSupplier stop)
      throws InterruptedException {
    SenderClocks clocks = new SenderClocks(topics, options.window());
    long[] periods = stated.periods(book.signals().size(), new long[book.signals().size()]);
    EngineOptions judging = new EngineOptions(true, Integer.MAX_VALUE, Sampling.of(periods));
    RuleEngine engine = new RuleEngine(Widening.of(book, clocks::uncertainty), judging, watching);
    EventSink judge = board.<EventSink>map(taker -> taker.before(engine)).orElse(engine);
    Silences silences = new Silences(stated.limits(periods), judge);
    LiveBeginning begins = new LiveBeginning(beginning.values(), silences);
    LiveRun run = run(begins, recording, false);
    board.ifPresent(taker -> watching.show(taker, engine));
    recording.ifPresent(kept -> earlier.ifPresent(rows -> judgeAgain(rows, kept, begins)));
    long begun = recording.flatMap(Recording::earlier).map(Recording.Earlier::forgotten).orElse(Long.MIN_VALUE);
    LiveResult result = listen(run, settings, stop);
    if (result.recordingFailure().isPresent()) {
      return outcome(run, result, clocks, true, List.of(), List.of());
    }
    boolean any = result.events() > 0 || begun != Long.MIN_VALUE;
    long end = Math.max(result.end(), begun);
    if (any) {
      begins.advanceTo(end);
      silences.finish(end);
    }
    TraceOutcome outcome = any ? engine.finish(end) : engine.finish();
    List<LiveVerdict> verdicts = outcome.rules().stream().map(rule -> new LiveVerdict(book.rules().get(rule.rule()),
        DoubtedVerdict.of(rule, book, result.evidence()).label(), rule.verdict() == Verdict.BROKEN)).toList();
    return outcome(run, result, clocks, true, verdicts, new ExerciseBoard(book).after(outcome));
  }

  /**
   * Records the feed until told to stop, or until recording fails.
   *
   * @throws RunException if there is no feed
   */
  public LiveOutcome record(ConnectionSettings settings, Recording recording, BooleanSupplier stop)
      throws InterruptedException {
    LiveRun run = run(new Unjudged(), Optional.of(recording), true);
    return outcome(run, listen(run, settings, stop), new SenderClocks(topics, options.window()), false, List.of(),
        List.of());
  }

  private LiveRun run(EventSink judge, Optional<Recording> recording, boolean recordingIsTheJob) {
    LiveRun run = new LiveRun(new LiveSetting(book, topics, options, clock), judge, recording, recordingIsTheJob,
        watching);
    watching.follow(run, clock, options.patience());
    return run;
  }

  private static LiveResult listen(LiveRun run, ConnectionSettings settings, BooleanSupplier stop)
      throws InterruptedException {
    try {
      return run.run(settings, stop);
    } catch (ConnectionTrouble e) {
      throw new RunException(e.getMessage());
    }
  }

  private LiveOutcome outcome(LiveRun run, LiveResult result, SenderClocks clocks, boolean judged,
      List<LiveVerdict> verdicts, List<Exercise> exercises) {
    List<String> signals = book.signals().stream().map(Signal::name).toList();
    List<String> remarks = new ArrayList<>(run.hearing().missing());
    if (judged) {
      remarks.addAll(EvidenceWords.beginning(beginning, book));
    }
    result.clocks().forEach(sender -> remarks.add(EvidenceWords.clock(sender, signals)));
    List<String> mixed = book.rules().stream().filter(rule -> clocks.uncertainty(RuleParts.signals(rule, book)) > 0)
        .map(Rule::id).toList();
    if (!mixed.isEmpty()) {
      remarks.add(EvidenceWords.mixed(clocks.window(), mixed, judged));
    }
    EvidenceWords.counters(result.evidence(), signals)
        .forEach(counter -> remarks.add(counter.count() + " x " + counter.label()));
    return new LiveOutcome(result.messages(), result.events(), remarks, result.recordingFailure(), verdicts,
        exercises);
  }
}
