package dev.pawl.mqtt.support;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.replay.InputSource;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.replay.ReplayTimeouts;
import dev.pawl.mqtt.replay.Replay;
import dev.pawl.mqtt.replay.ReplayResult;
import dev.pawl.mqtt.replay.ReplaySetting;
import dev.pawl.mqtt.station.Station;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.intake.Progress;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.locks.LockSupport;
import org.awaitility.Awaitility;

/** Replays of a made-up day of the test ride to a bench that runs {@link RelayLogic}. */
public final class Rehearsal {

  private static final HarnessClock CLOCK = HarnessClock.started();
  private static final String NAME = "bench-1";
  private static final String PREFIX = "ride";
  private static final Duration KEEP_ALIVE = Duration.ofSeconds(2);

  private Rehearsal() {}

  /** Trains come every second for so many seconds; the chain falls in the middle of every fifth. */
  public static InputSource day(int seconds) {
    return new InputSource() {
      @Override
      public long end() {
        return seconds * 1000 * Ride.MS;
      }

      @Override
      public void play(EventSink taker) {
        taker.event(0, Ride.signal("near_flag"), 0, 0);
        taker.event(0, Ride.signal("estop_chain"), 1, 0);
        for (int second = 0; second < seconds; second++) {
          long start = second * 1000 * Ride.MS;
          taker.event(start + 107 * Ride.MS, Ride.signal("near_flag"), 1, 0);
          if (second % 5 == 0) {
            taker.event(start + 403 * Ride.MS, Ride.signal("estop_chain"), 0, 0);
            taker.event(start + 900 * Ride.MS, Ride.signal("near_flag"), 0, 0);
            taker.event(start + 950 * Ride.MS, Ride.signal("estop_chain"), 1, 0);
          } else {
            taker.event(start + 900 * Ride.MS, Ride.signal("near_flag"), 0, 0);
          }
        }
      }
    };
  }

  /** Does something once so many events have come, on a thread of its own. */
  public static Thread trouble(Ride.Kept merged, int after, Runnable what) {
    Thread trouble = new Thread(() -> {
      Awaitility.await().atMost(Duration.ofSeconds(60)).pollInterval(Duration.ofMillis(1))
          .until(() -> merged.count() > after);
      what.run();
    }, "test-trouble");
    trouble.start();
    return trouble;
  }

  /**
   * Kills a broker that keeps nothing; a person puts up the marker on the one that is started for it, after a while.
   */
  public static void replace(TestBroker broker, Duration pause) {
    broker.kill();
    broker.restart();
    LockSupport.parkNanos(pause.toNanos());
    Bench.putUpMarker(broker, NAME);
  }

  /** A bench that runs {@link RelayLogic}, with a marker, and signals on topics under a prefix. */
  public static Bench bench(TestBroker broker, String prefix, Pace pace, long stopDelay) {
    Bench.putUpMarker(broker, NAME);
    Station station = new Station(Ride.BOOK, TopicBindings.byName(Ride.BOOK, prefix), out ->
        new RelayLogic(out, stopDelay), pace, CLOCK);
    return Bench.serve(station, broker, NAME, CLOCK);
  }

  public static TraceOutcome judged(Path file) throws IOException {
    return judged(file, new Ride.Findings());
  }

  public static TraceOutcome judged(Path file, Ride.Findings findings) throws IOException {
    return judged(file, Ride.BOOK, findings);
  }

  public static TraceOutcome judged(Path file, RuleBook book, Ride.Findings findings) throws IOException {
    RuleEngine engine = new RuleEngine(book, EngineOptions.DEFAULT, findings);
    try (TraceReader reader = Traces.open(file, TraceOptions.of(book))) {
      TraceSummary summary = reader.readTo(engine, Progress.NONE);
      assertThat(summary.diagnostics()).isEmpty();
      return engine.finish(summary.times().end().orElseThrow());
    }
  }

  public static ReplayResult replay(TestBroker broker, Pace pace, InputSource day, long stopDelay, EventSink judge,
      Path file) throws IOException {
    return replay(broker, broker, pace, day, stopDelay, judge, file);
  }

  /** What the logic gives with no broker in between. */
  public static Ride.Kept inProcess(InputSource day, long stopDelay) throws IOException {
    Ride.Kept kept = new Ride.Kept();
    RelayLogic logic = new RelayLogic(kept, stopDelay);
    day.play(logic);
    logic.advanceTo(day.end() + 1);
    return kept;
  }

  /** A replay in which bench side and harness reach the broker by ways of their own. */
  public static ReplayResult replay(TestBroker forBench, TestBroker forHarness, Pace pace, InputSource day,
      long stopDelay, EventSink judge, Path file) throws IOException {
    try (Bench bench = bench(forBench, PREFIX, pace, stopDelay)) {
      return play(forHarness, TopicBindings.byName(Ride.BOOK, PREFIX), pace, day, judge, file);
    }
  }

  /** The harness's part, with somebody else at the bench. */
  public static ReplayResult play(TestBroker broker, TopicBindings bindings, Pace pace, InputSource day,
      EventSink judge, Path file) throws IOException {
    return play(broker, bindings, pace, Duration.ZERO, day, judge, file);
  }

  /** The same after listening for a while. */
  public static ReplayResult play(TestBroker broker, TopicBindings bindings, Pace pace, Duration listening,
      InputSource day, EventSink judge, Path file) throws IOException {
    Bench.putUpMarker(broker, NAME);
    ConnectionSettings settings = ConnectionSettings.of(broker.address(), "replay").withKeepAlive(KEEP_ALIVE);
    try (BenchGuard guard = new BenchGuard(settings.withClientId("guard"), NAME, CLOCK, Duration.ofSeconds(5));
        Recording recording = new Recording(NewRows.at(file), Ride.BOOK.signals(), TimeScale.NANOSECONDS)) {
      Replay replay = new Replay(new ReplaySetting(Ride.BOOK, bindings, pace,
          new ReplayTimeouts(listening, Duration.ofSeconds(20), Duration.ofMillis(100)), CLOCK, () -> false));
      return replay.run(settings, guard, day, judge, recording);
    }
  }
}
