package dev.pawl.mqtt.live;

import dev.pawl.engine.EventSink;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.feed.FeedListener;
import dev.pawl.mqtt.feed.Hearing;
import dev.pawl.mqtt.feed.LiveFeed;
import dev.pawl.mqtt.feed.Merger;
import dev.pawl.mqtt.feed.RecordedStream;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.SenderClocks;
import dev.pawl.mqtt.feed.SenderTimeline;
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
  private final SenderClocks clocks;
  private final Merger merger;
  private final RecordedStream stream;
  private final LiveFeed feed;

  /**
   * Prepares a session.
   *
   * @param judge takes the merged stream; its {@link RecordedStream} lines are those of the recording
   * @param recording where to record, if anywhere
   * @param recordingIsTheJob whether listening ends when recording fails
   * @param listener told of what happens, on the thread that runs the session
   */
  public LiveRun(LiveSetting setting, EventSink judge, Optional<Recording> recording, boolean recordingIsTheJob,
      FeedListener listener) {
    int signals = setting.book().signals().size();
    this.bindings = setting.bindings();
    this.recording = recording;
    this.recordingIsTheJob = recordingIsTheJob;
    this.queue = new InboundQueue(setting.options().capacity(), setting.clock());
    this.evidence = new EvidenceLog(signals);
    this.clocks = new SenderClocks(bindings, setting.options().window());
    this.stream = new RecordedStream(recording, judge);
    this.merger = new Merger(signals, new SenderTimeline(clocks.window()), clocks, evidence, stream);
    this.feed = new LiveFeed(setting.book(), bindings, queue, merger, false,
        () -> recording.ifPresent(Recording::secure), listener);
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
      recording.ifPresent(Recording::begin);
      feed.follow(settings.brokerDrops(), connection);
      while (!stop.getAsBoolean() && !(recordingIsTheJob && failure().isPresent())) {
        feed.step();
      }
      feed.close();
    }
    feed.finish();
    long end = Math.max(merger.horizon(), stream.lastTime());
    recording.ifPresent(r -> r.end(end));
    return new LiveResult(feed.messages(), stream.events(), end, evidence.items(), clockStates(), failure());
  }

  private Optional<String> failure() {
    return recording.flatMap(Recording::failure);
  }

  private List<LiveResult.ClockState> clockStates() {
    return clocks.heard().stream().map(sender -> new LiveResult.ClockState(sender.signals(), sender.clock().offset(),
        sender.clock().spread(),
        sender.clock().samples(), sender.clock().corrections())).toList();
  }

  /** The log of what makes the evidence doubtful; to be read on the thread that runs the session. */
  public EvidenceLog evidence() {
    return evidence;
  }

  /** What has been heard so far; to be read on the thread that runs the session. */
  public Hearing hearing() {
    return feed.hearing();
  }
}
