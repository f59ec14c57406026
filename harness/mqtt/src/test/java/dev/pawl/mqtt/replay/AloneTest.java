package dev.pawl.mqtt.replay;

import static dev.pawl.mqtt.support.Rehearsal.day;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.station.Station;
import dev.pawl.mqtt.support.Bench;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.Rehearsal;
import dev.pawl.mqtt.support.RelayLogic;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.mqtt.time.HarnessClock;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Nothing is published where somebody else publishes, whatever the marker says. */
class AloneTest {

  private static final HarnessClock CLOCK = HarnessClock.started();
  private static final Duration LISTENING = Duration.ofSeconds(2);
  private static final Duration LONG = Duration.ofSeconds(30);

  @TempDir
  private Path folder;

  static List<TestBroker> brokers() {
    return TestBrokers.all();
  }

  private static TopicBindings under(String prefix) {
    return TopicBindings.byName(Ride.BOOK, prefix);
  }

  private ReplayResult play(TestBroker broker, String prefix, Duration listening) throws Exception {
    return Rehearsal.play(broker, under(prefix), Pace.STEPPED, listening, day(2), new Ride.Kept(),
        folder.resolve("alone.csv"));
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aValueThatTheBrokerHasKeptOnATopicOfAnInputIsNamedAndNothingIsSent(TestBroker broker) throws Exception {
    try (Foreign other = new Foreign(broker.address(), "other"); Foreign ear = new Foreign(broker.address(), "ear")) {
      other.send("kept/near_flag", "1", 1, true);
      ear.listen("kept/#", HandShake.STEP_TOPIC);
      assertThat(ear.next(10_000).retained()).isTrue();
      assertThatThrownBy(() -> play(broker, "kept", LISTENING)).isInstanceOf(ConnectionTrouble.class)
          .hasMessageStartingWith(
          "somebody else publishes where this run does, so nothing more is sent: kept/near_flag (kept by the broker "
              + "from earlier);");
      other.send("kept/near_flag", "", 1, true);
      assertThat(ear.next(10_000).text()).as("the first that comes is the other's, not ours").isEmpty();
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aLiveSenderOnTopicsOfInputsIsNamedWithAllItsTopicsAndNothingIsSent(TestBroker broker) throws Exception {
    try (Foreign ride = new Foreign(broker.address(), "ride"); Sending sending =
        new Sending(ride, "live/near_flag", "live/estop_chain", "live/lift_run")) {
      assertThatThrownBy(() -> play(broker, "live", LISTENING)).isInstanceOf(ConnectionTrouble.class)
          .hasMessageContaining(": live/estop_chain, live/near_flag; find out who");
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aSenderThatComesInTheMiddleEndsTheReplayAndMarksIt(TestBroker broker) throws Exception {
    Ride.Kept merged = new Ride.Kept();
    try (Bench bench = Rehearsal.bench(broker, "middle", new Pace(2), 0);
        Foreign ride = new Foreign(broker.address(), "ride")) {
      Thread trouble = Rehearsal.trouble(merged, 10, () -> ride.send("middle/near_flag", "1"));
      ReplayResult result = Rehearsal.play(broker, under("middle"), new Pace(2), Duration.ZERO, day(60), merged,
          folder.resolve("middle.csv"));
      trouble.join();
      assertThat(result.stopped().orElseThrow())
          .startsWith("somebody else publishes where this run does, so nothing more is sent: middle/near_flag;");
      assertThat(result.evidence()).filteredOn(item -> item.anomaly() == Anomaly.INTERFERENCE).singleElement()
          .satisfies(item -> assertThat(item.firstDetail()).isEqualTo("middle/near_flag"));
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aBenchSideDoesNotServeWhereItsOutputsComeFromSomebodyElse(TestBroker broker) {
    Bench.putUpMarker(broker, "bench-1");
    ConnectionSettings settings = ConnectionSettings.of(broker.address(), "bench");
    Station station = new Station(Ride.BOOK, under("other"), out -> new RelayLogic(out, 0), Pace.STEPPED, CLOCK);
    try (BenchGuard guard = new BenchGuard(settings.withClientId("bench-guard"), "bench-1", CLOCK,
        Duration.ofSeconds(5));
        Foreign ride = new Foreign(broker.address(), "ride"); Sending sending =
            new Sending(ride, "other/lift_run", "other/near_flag")) {
      assertThatThrownBy(() -> station.run(settings, guard, LISTENING, () -> { }, () -> false))
          .isInstanceOf(ConnectionTrouble.class)
          .hasMessageContaining(": other/lift_run; find out who");
      assertThat(station.isServing()).isFalse();
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aBenchSideEndsWhenSomebodyElseSendsItsOutputs(TestBroker broker) throws Exception {
    Bench.putUpMarker(broker, "bench-1");
    ConnectionSettings settings = ConnectionSettings.of(broker.address(), "bench");
    Station station = new Station(Ride.BOOK, under("later"), out -> new RelayLogic(out, 0), Pace.STEPPED, CLOCK);
    try (BenchGuard guard = new BenchGuard(settings.withClientId("bench-guard"), "bench-1", CLOCK,
        Duration.ofSeconds(5));
        Foreign ride = new Foreign(broker.address(), "ride")) {
      long deadline = CLOCK.now() + LONG.toNanos();
      assertThatThrownBy(() -> station.run(settings, guard, Duration.ZERO, () -> ride.send("later/lift_run", "1"), () ->
          CLOCK.now() > deadline))
          .isInstanceOf(ConnectionTrouble.class).hasMessageContaining(": later/lift_run; find out who");
    }
  }

  /** Somebody who says the same all the time. */
  private static final class Sending implements AutoCloseable {

    private final Thread thread;
    private volatile boolean stop;
    private volatile boolean begun;

    Sending(Foreign client, String... topics) {
      thread = new Thread(() -> {
        while (!stop) {
          for (String topic : topics) {
            client.send(topic, "1");
          }
          begun = true;
        }
      }, "test-sending");
      thread.start();
      Awaitility.await().atMost(LONG).until(() -> begun);
    }

    @Override
    public void close() {
      stop = true;
      try {
        thread.join(LONG.toMillis());
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }
}
