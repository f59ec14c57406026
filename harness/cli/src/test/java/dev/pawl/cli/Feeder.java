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
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BooleanSupplier;

/** Somebody who sends messages to a broker on loopback. */
final class Feeder {

  private static final int PAUSE_MILLISECONDS = 3;
  private static final AtomicInteger PERSONS = new AtomicInteger();

  private Feeder() {}

  private static PublishingConnection connect(int port, String name) {
    ConnectionSettings settings = ConnectionSettings.of(new BrokerAddress(false, "127.0.0.1", port), name);
    return new PublishingConnection(settings, name, Optional.empty(), topic -> Optional.empty(),
        HarnessClock.started());
  }

  /** Counts on a topic, each number once, until told to stop. */
  static void count(int port, String topic, BooleanSupplier stop) throws InterruptedException {
    try (PublishingConnection counter = connect(port, "counter")) {
      for (long number = 0; !stop.getAsBoolean(); number++) {
        counter.publish(topic, Long.toString(number).getBytes(StandardCharsets.UTF_8), false, Inbound.NO_NUMBER);
        TimeUnit.MILLISECONDS.sleep(PAUSE_MILLISECONDS);
      }
      assertThat(counter.awaitAcknowledged(Duration.ofSeconds(20))).isTrue();
    }
  }

  /**
   * Sends messages, each a topic and a payload, and waits until the broker has them. Each time it is somebody else, as
   * the numbers of one sender's messages go on.
   */
  static void send(int port, String[][] messages, boolean retain) {
    try (PublishingConnection person = connect(port, "person-" + PERSONS.incrementAndGet())) {
      for (String[] message : messages) {
        person.publish(message[0], message[1].getBytes(StandardCharsets.UTF_8), retain, Inbound.NO_NUMBER);
      }
      assertThat(person.awaitAcknowledged(Duration.ofSeconds(20))).isTrue();
    }
  }
}
