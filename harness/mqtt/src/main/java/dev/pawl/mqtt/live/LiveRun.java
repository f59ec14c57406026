package dev.pawl.mqtt.live;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.binding.PayloadForm;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.feed.Feed;
import dev.pawl.mqtt.feed.FeedListener;
import dev.pawl.mqtt.feed.Merger;
import dev.pawl.mqtt.feed.RecordedStream;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.SenderTimeline;
import dev.pawl.mqtt.time.ClockOffset;
import dev.pawl.mqtt.time.HarnessClock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;

/** One session of listening to a live feed, into a judge and, where asked for, into a recording. Receive-only. */
public final class LiveRun {

  private final TopicBindings bindings;
  private final InboundQueue queue;
  private final Optional<Recording> recording;
  private final boolean recordingIsTheJob;
  private final EvidenceLog evidence;
  private final SenderTimeline timeline;
  private final Merger merger;
  private final RecordedStream stream;
  private final Feed feed;

  /**
   * Prepares a session.
   *
   * @param judge takes the merged stream; its {@link RecordedStream} lines are those of the recording
   * @param recording where to record, if anywhere
   * @param recordingIsTheJob whether listening ends when recording fails
   * @param listener told of what happens, on the thread that runs the session
   */
  public LiveRun(RuleBook book, TopicBindings bindings, LiveOptions options, EventSink judge, Optional<Recording> recording,
      boolean recordingIsTheJob, FeedListener listener, HarnessClock clock) {
    this.bindings = bindings;
    this.recording = recording;
    this.recordingIsTheJob = recordingIsTheJob;
    this.queue = new InboundQueue(options.capacity(), clock);
    this.evidence = new EvidenceLog(book.signals().size());
    long window = statesTimes(bindings) ? options.window().toNanos() : 0;
    this.timeline = new SenderTimeline(window, options.jump().toNanos(), this::clockJumped);
    this.stream = new RecordedStream(recording, judge);
    this.merger = new Merger(book.signals().size(), timeline, evidence, stream);
    this.feed = new Feed(book, bindings, queue, merger, false, () -> recording.ifPresent(Recording::secure), listener);
  }

  private static boolean statesTimes(TopicBindings bindings) {
    return bindings.list().stream().anyMatch(b -> b.form() instanceof PayloadForm.Sparkplug
        || b.form() instanceof PayloadForm.Json json && json.time().filter(t -> t.clock() == PayloadForm.Clock.SENDER).isPresent());
  }

  private void clockJumped() {
    String what = "it went " + (timeline.lastJump() > 0 ? "forward" : "back") + " by " + Math.abs(timeline.lastJump()) / 1_000_000 + " ms";
    evidence.noteForAll(Anomaly.CLOCK_JUMP, merger.horizon(), what);
    merger.allUnknownAtHorizon();
  }

  /**
   * Listens until told to stop, or until recording fails where that is the job.
   *
   * @throws dev.pawl.mqtt.client.ConnectionTrouble if the first connection fails
   */
  public LiveResult run(ConnectionSettings settings, BooleanSupplier stop) throws InterruptedException {
    List<String> filters = new ArrayList<>(bindings.filters());
    filters.add(ListeningConnection.DROPS_TOPIC);
    try (ListeningConnection connection = new ListeningConnection(settings, filters, queue)) {
      feed.follow(settings.brokerDrops(), connection);
      while (!stop.getAsBoolean() && !(recordingIsTheJob && failure().isPresent())) {
        feed.step();
      }
      feed.close();
    }
    feed.finish();
    long end = Math.max(merger.horizon(), stream.lastTime());
    recording.ifPresent(r -> r.end(end));
    return new LiveResult(feed.messages(), stream.events(), end, evidence.items(), clockState(), queue.fullest(), failure());
  }

  private Optional<String> failure() {
    return recording.flatMap(Recording::failure);
  }

  private Optional<LiveResult.ClockState> clockState() {
    ClockOffset offset = timeline.offset();
    return offset.isKnown() ? Optional.of(new LiveResult.ClockState(offset.nanoseconds(), offset.spread(), offset.samples(), timeline.jumps()))
        : Optional.empty();
  }

  /** The log of what makes the evidence doubtful; to be read on the thread that runs the session. */
  public EvidenceLog evidence() {
    return evidence;
  }

  /** The last value of a signal; to be read on the thread that runs the session. */
  public long present(int signal) {
    return merger.present(signal);
  }
}
