package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.PublishingConnection;
import dev.pawl.mqtt.time.HarnessClock;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Optional;

/** Somebody who sends messages to a broker on loopback. */
final class Feeder {

  private Feeder() {}

  /** Sends messages, each a topic and a payload, and waits until the broker has them. */
  static void send(int port, String[][] messages, boolean retain) {
    ConnectionSettings settings = ConnectionSettings.of(new BrokerAddress(false, "127.0.0.1", port), "person");
    try (PublishingConnection person = new PublishingConnection(settings, "person", Optional.empty(), topic -> Optional.empty(),
        HarnessClock.started())) {
      for (String[] message : messages) {
        person.publish(message[0], message[1].getBytes(StandardCharsets.UTF_8), retain, Inbound.NO_NUMBER);
      }
      assertThat(person.awaitAcknowledged(Duration.ofSeconds(20))).isTrue();
    }
  }
}
