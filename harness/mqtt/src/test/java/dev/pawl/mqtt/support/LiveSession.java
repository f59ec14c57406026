package dev.pawl.mqtt.support;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.feed.FeedListener;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.RowFile;
import dev.pawl.mqtt.live.LiveOptions;
import dev.pawl.mqtt.live.LiveResult;
import dev.pawl.mqtt.live.LiveRun;
import dev.pawl.mqtt.live.LiveSetting;
import dev.pawl.mqtt.live.Watching;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.intake.Progress;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;

/** A session of watching and recording the test ride, on a thread of its own; made once it is connected. */
public final class LiveSession implements AutoCloseable {

  private static final HarnessClock CLOCK = HarnessClock.started();
  private static final long PATIENCE_MILLISECONDS = 20_000;

  public final Ride.Findings findings = new Ride.Findings();
  public final Ride.Kept kept = new Ride.Kept();
  public final Watching watching = new Watching();
  public final RuleEngine engine = new RuleEngine(Ride.BOOK, EngineOptions.DEFAULT, watching);
  private final Path file;
  private final Recording recording;
  private final Thread thread;
  private volatile boolean stop;
  private volatile boolean connected;
  private volatile LiveResult result;
  private volatile Throwable failure;

  public LiveSession(Path folder, TestBroker broker, TopicBindings bindings) throws IOException {
    this(folder, ConnectionSettings.of(broker.address(), "watch"), bindings);
  }

  public LiveSession(Path folder, ConnectionSettings settings, TopicBindings bindings) throws IOException {
    this(Files.createTempFile(folder, "live", ".csv"), settings, bindings, null, LiveOptions.DEFAULT);
  }

  /** A session whose job is the recording. */
  public LiveSession(Path folder, TestBroker broker, TopicBindings bindings, RowFile rows, LiveOptions options)
      throws IOException {
    this(folder, ConnectionSettings.of(broker.address(), "watch"), bindings, rows, options);
  }

  private LiveSession(Path file, ConnectionSettings settings, TopicBindings bindings, RowFile rows, LiveOptions options)
      throws IOException {
    this.file = file;
    recording = new Recording(rows == null ? NewRows.at(file) : rows, Ride.BOOK.signals(), TimeScale.RFC_3339);
    watching.add(findings);
    LiveRun run = new LiveRun(new LiveSetting(Ride.BOOK, bindings, options, CLOCK), new Both(kept, engine),
        Optional.of(recording), rows != null, new FeedListener() {
          @Override
          public void news(Inbound.News news) {
            connected = news instanceof Inbound.Connected;
          }
        });
    thread = new Thread(() -> {
      try {
        result = run.run(settings, () -> stop);
      } catch (InterruptedException | RuntimeException e) {
        failure = e;
      }
    }, "test-watch");
    thread.start();
    await(() -> connected || failure != null);
  }

  public static void await(Callable<Boolean> condition) {
    Awaitility.await().atMost(Duration.ofMillis(PATIENCE_MILLISECONDS)).pollInterval(Duration.ofMillis(5))
        .until(condition);
  }

  public boolean isConnected() {
    return connected;
  }

  /** What it came to; null until it has ended. */
  public LiveResult result() {
    return result;
  }

  public LiveResult end() throws InterruptedException {
    stop = true;
    thread.join(PATIENCE_MILLISECONDS);
    recording.close();
    if (failure != null) {
      throw new AssertionError(failure);
    }
    return result;
  }

  public static long count(LiveResult ended, Anomaly anomaly) {
    return ended.evidence().stream().filter(i -> i.anomaly() == anomaly).mapToLong(EvidenceLog.Item::count).sum();
  }

  /** The kept values of one signal, in order. */
  public List<Long> values(String signal) {
    return kept.events().stream().filter(e -> e.signal() == Ride.signal(signal)).map(Ride.Event::value).toList();
  }

  /** The recording judged by a new engine is the same to the last evidence. */
  public void requireSameOffline(LiveResult ended) throws IOException {
    TraceOutcome live = engine.finish(ended.end());
    Ride.Findings again = new Ride.Findings();
    RuleEngine offline = Ride.engine(again);
    try (TraceReader reader = Traces.open(file, TraceOptions.of(Ride.BOOK))) {
      TraceSummary summary = reader.readTo(offline, Progress.NONE);
      assertThat(summary.diagnostics()).isEmpty();
      assertThat(offline.finish(summary.times().end().orElseThrow())).isEqualTo(live);
    }
    assertThat(again.list).isEqualTo(findings.list);
  }

  @Override
  public void close() throws InterruptedException {
    stop = true;
    thread.join(PATIENCE_MILLISECONDS);
  }
}
