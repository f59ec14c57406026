package dev.pawl.mqtt.guard;

import dev.pawl.mqtt.broker.EmbeddedBroker;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.PublishingConnection;
import dev.pawl.mqtt.time.HarnessClock;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Optional;

/**
 * Puts the bench marker up on a broker that this process has just started on loopback, for a command that publishes
 * there: who asks for that asks for a bench. There is no way to do it for any other broker; that takes a person.
 */
public final class EmbeddedMarker {

  private EmbeddedMarker() {}

  /** Puts up a marker that names the bench, for as long as a marker may live. */
  public static void putUp(EmbeddedBroker broker, String bench, HarnessClock clock) {
    ConnectionSettings settings = ConnectionSettings.of(broker.address(), "pawl-marker")
        .withCredentials(broker.credentials());
    try (PublishingConnection connection = new PublishingConnection(settings, "marker", Optional.empty(),
        topic -> topic.equals(BenchGuard.TOPIC) ? Optional.empty()
            : Optional.of("only the marker is published here"), clock)) {
      connection.publishExpiring(BenchGuard.TOPIC, bench.getBytes(StandardCharsets.UTF_8), BenchGuard.LONGEST_LIFE);
      connection.awaitAcknowledged(Duration.ofSeconds(10));
    }
  }
}
