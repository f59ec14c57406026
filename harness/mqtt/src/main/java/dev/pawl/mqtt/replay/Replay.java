package dev.pawl.mqtt.replay;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.client.PublishRefused;
import dev.pawl.mqtt.client.PublishingConnection;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.feed.LiveFeed;
import dev.pawl.mqtt.feed.Merger;
import dev.pawl.mqtt.feed.RecordedStream;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.SenderClocks;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.guard.PatientPublisher;
import dev.pawl.mqtt.time.HarnessClock;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * One replay over a broker. Inputs that have a topic are published and taken at their trace time; outputs that have one
 * are taken from the broker; signals that have none are taken from the trace as they are.
 *
 * <p>Two threads: the caller's plays, another takes, merges, records and judges.
 */
public final class Replay {

  private static final Duration ACKNOWLEDGEMENT_PATIENCE = Duration.ofSeconds(30);

  private final ReplaySetting setting;
  private final RuleBook book;
  private final TopicBindings bindings;
  private final Pace pace;
  private final HarnessClock clock;
  private Consumer<String> told = words -> { };

  public Replay(ReplaySetting setting) {
    this.setting = setting;
    this.book = setting.book();
    this.bindings = setting.bindings();
    this.pace = setting.pace();
    this.clock = setting.clock();
  }

  /** From now on it is told in words what is waited for, where that takes long. */
  public void tell(Consumer<String> taker) {
    told = taker;
  }

  /**
   * Plays a trace, or a ride, to its end, or until told to stop, or until somebody else publishes where it does.
   *
   * @param settings how to connect; the client's identifier is a stem for those of the connections
   * @param guard the permit for the broker that the settings name
   * @param judge takes the merged stream
   * @throws ConnectionTrouble if no connection can be made, or if somebody else was publishing there before it began
   * @throws IOException if the trace cannot be read
   */
  public ReplayResult run(ConnectionSettings settings, BenchGuard guard, InputSource source, EventSink judge,
      Recording recording) throws IOException {
    String run = settings.clientId() + "-" + Long.toString(clock.now(), Character.MAX_RADIX);
    try (PublishingConnection publishing = new PublishingConnection(settings.withClientId(settings.clientId() + "-out"),
        run, Optional.empty(), guard, claimed(), clock)) {
      publishing.requireAlone(setting.timeouts().listening(), setting.stop());
      return run(settings, guard, publishing, source, new RecordedStream(Optional.of(recording), judge), recording);
    }
  }

  /** Where only this run may publish. */
  private List<String> claimed() {
    List<String> topics = new ArrayList<>(bindings.of(book, Set.of(Signal.Direction.INPUT)).topics());
    topics.add(HandShake.STEP_TOPIC);
    return topics;
  }

  private ReplayResult run(ConnectionSettings settings, BenchGuard guard, PublishingConnection publishing,
      InputSource source, RecordedStream stream, Recording recording) throws IOException {
    InboundQueue queue = new InboundQueue(1_000_000, clock);
    EvidenceLog evidence = new EvidenceLog(book.signals().size());
    TopicBindings outputs = bindings.of(book, Set.of(Signal.Direction.OUTPUT, Signal.Direction.INTERNAL));
    SenderClocks clocks = new SenderClocks(outputs, SenderClocks.USUAL_WINDOW);
    ReplayTimeline timeline = new ReplayTimeline(pace, clocks.window());
    Merger merger = new Merger(book.signals().size(), timeline, clocks, evidence, stream);
    Answers answers = new Answers(said -> inputsLost(said, merger, outputs), source.reacting().isPresent());
    LiveFeed feed = new LiveFeed(book, outputs, queue, merger, pace.isStepped(), recording::secure, answers);
    try (ListeningConnection listening =
        new ListeningConnection(pace.listening(settings.withClientId(settings.clientId() + "-in")), filters(outputs),
        queue)) {
      feed.follow(settings.brokerDrops(), listening);
      FeedThread taking = new FeedThread(feed);
      Player.Ways ways = new Player.Ways(timeline, new PatientPublisher(publishing, guard, setting.stop()), queue,
          answers, taking);
      Player player = new Player(setting, ways, source.reacting(), new WaitingNotice(told, clock));
      Optional<String> stopped = play(player, source, publishing);
      taking.end();
      long heard = Math.max(merger.horizon(), stream.lastTime());
      // What was played to its end lasted as long, also where nothing was heard at the last.
      long end = stopped.isEmpty() ? Math.max(heard, source.end()) : heard;
      recording.end(end);
      if (pace.isStepped() && answers.strangers() > 0) {
        evidence.note(Anomaly.STRANGER, answers.strangers(), end, -1, "by the counts of the hand-shake");
      }
      if (!publishing.strangers().isEmpty()) {
        evidence.note(Anomaly.INTERFERENCE, end, -1, publishing.strangers());
      }
      PaceQuality quality = player.quality(publishing.longestAcknowledgement(), clocks.window());
      return new ReplayResult(quality, feed.messages(), stream.events(), end, player.replaced(), player.unsaid(),
          publishing.repeated(),
          evidence.items(), stopped, recording.failure());
    }
  }

  private List<String> filters(TopicBindings outputs) {
    List<String> filters = new ArrayList<>(outputs.filters());
    filters.add(ListeningConnection.DROPS_TOPIC);
    filters.add(HandShake.DONE_TOPIC);
    return filters;
  }

  /**
   * Step by step the inputs are said again before the step is taken, so that nothing is missing; at a pace time has
   * gone on meanwhile.
   */
  private void inputsLost(Inbound.Message said, Merger merger, TopicBindings outputs) {
    if (!pace.isStepped()) {
      List<Integer> signals = outputs.list().stream().map(binding -> binding.signal()).toList();
      merger.evidence().note(Anomaly.BENCH_GAP, merger.timeline().ofArrival(said.arrival()), signals,
          "the bench side asks for all inputs");
      signals.forEach(signal -> merger.unknown(signal, said.arrival()));
    }
  }

  private Optional<String> play(Player player, InputSource source, PublishingConnection publishing) throws IOException {
    try {
      source.play(player);
      player.end(source.end(), setting.timeouts().tail());
      if (!publishing.awaitAcknowledged(ACKNOWLEDGEMENT_PATIENCE)) {
        return Optional.of("the broker did not acknowledge the last inputs");
      }
      return Optional.empty();
    } catch (PlayStopped | PublishRefused | ConnectionTrouble e) {
      return Optional.of(e.getMessage());
    }
  }
}
