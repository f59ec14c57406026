package dev.pawl.mqtt.live;

import static dev.pawl.mqtt.support.LiveSession.await;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.broker.EmbeddedBroker;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.support.Cable;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.LiveSession;
import dev.pawl.mqtt.support.Mosquitto;
import dev.pawl.mqtt.support.Ports;
import dev.pawl.mqtt.support.Ride;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Messages of quality 0 that come faster than a client takes them: a broker keeps them as long as it has room for them
 * and then drops them, which MQTT allows (MQTT 5, 4.3.1: no delivery is promised).
 */
class DroppedByTheBrokerTest {

  /** With the library's own limit, the embedded broker drops some of these. */
  private static final int MANY = 8_000;
  private static final String ROOM = " ".repeat(2_000);

  @TempDir
  private Path folder;

  /** Speeds come while nothing gets through to the session, then all at once. */
  private static void flood(BrokerAddress broker, Cable cable) {
    try (Foreign ride = new Foreign(broker, "ride")) {
      ride.send("ride/near_flag", "0");
      await(() -> cable.carried() > 0);
      cable.clamp();
      for (int i = 0; i < MANY; i++) {
        ride.hurl("ride/lift_speed", i % 3 + ROOM);
      }
      // The answer to this one says that the broker has taken those before it.
      ride.send("elsewhere", "done");
      cable.release();
    }
  }

  private static long last(List<Long> values) {
    return values.get(values.size() - 1);
  }

  private static long speeds(LiveSession session) {
    return session.values("lift_speed").stream().filter(v -> v != EventSink.UNKNOWN).count();
  }

  @Test
  void theEmbeddedBrokerKeepsWhatASlowClientHasYetToTake() throws Exception {
    try (EmbeddedBroker broker = EmbeddedBroker.start(); Cable cable = new Cable(broker.address());
        LiveSession session = new LiveSession(folder, settings(broker, cable),
            TopicBindings.byName(Ride.BOOK, "ride"))) {
      flood(broker.address(), cable);
      await(() -> speeds(session) == MANY);
      assertThat(session.end().evidence()).isEmpty();
      assertThat(broker.dropped()).isZero();
    }
  }

  @Test
  void whatItDropsIsCountedAndNothingIsKnownFromThere() throws Exception {
    try (EmbeddedBroker broker = EmbeddedBroker.start(Ports.free(), 500_000); Cable cable = new Cable(broker.address());
        LiveSession session = new LiveSession(folder, settings(broker, cable),
            TopicBindings.byName(Ride.BOOK, "ride"))) {
      flood(broker.address(), cable);
      await(() -> last(session.values("near_flag")) == EventSink.UNKNOWN && session.isConnected());
      try (Foreign ride = new Foreign(broker.address(), "ride")) {
        ride.send("ride/near_flag", "1");
        await(() -> last(session.values("near_flag")) == 1);
      }
      LiveResult result = session.end();
      assertThat(broker.dropped()).isPositive();
      assertThat(LiveSession.count(result, Anomaly.BROKER_DROPPED)).isEqualTo(broker.dropped());
      assertThat(LiveSession.count(result, Anomaly.CONNECTION_GAP)).isPositive();
      session.requireSameOffline(result);
    }
  }

  private static ConnectionSettings settings(EmbeddedBroker broker, Cable cable) {
    return ConnectionSettings.of(cable.address(), "watch").withBrokerDrops(broker::dropped);
  }

  @Test
  void whatMosquittoSaysThatItDroppedIsStated() throws Exception {
    Assumptions.assumeTrue(Mosquitto.isInstalled(), "Mosquitto is not installed");
    try (Mosquitto broker = Mosquitto.start(folder, "max_queued_messages 10", "sys_interval 1");
        Cable cable = new Cable(broker.address());
        LiveSession session = new LiveSession(folder, ConnectionSettings.of(cable.address(), "watch"),
            TopicBindings.byName(Ride.BOOK, "ride"));
        Foreign counts = new Foreign(broker.address(), "counts").listen(ListeningConnection.DROPS_TOPIC)) {
      assertThat(counts.next(10_000).text()).isEqualTo("0");
      flood(broker.address(), cable);
      AtomicLong dropped = new AtomicLong();
      await(() -> {
        Foreign.Received count = counts.next(10);
        dropped.set(count == null ? dropped.get() : Long.parseLong(count.text()));
        return speeds(session) + dropped.get() >= MANY;
      });
      try (Foreign ride = new Foreign(broker.address(), "ride")) {
        ride.send("ride/near_flag", "1");
        await(() -> session.values("near_flag").contains(1L));
      }
      assertThat(LiveSession.count(session.end(), Anomaly.DROPS_TOLD)).isBetween(1L, dropped.get());
    }
  }
}
