package dev.pawl.mqtt.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.Ports;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.mqtt.time.HarnessClock;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ConnectionTest {

  private static final PublishPermit ALL = topic -> Optional.empty();
  private static final HarnessClock CLOCK = HarnessClock.started();

  static List<TestBroker> brokers() {
    return TestBrokers.all();
  }

  private static ConnectionSettings settings(TestBroker broker, String id) {
    return ConnectionSettings.of(broker.address(), id);
  }

  private static Inbound.Message message(InboundQueue queue) throws InterruptedException {
    while (true) {
      Inbound item = queue.take(10, TimeUnit.SECONDS);
      assertThat(item).as("something comes in").isNotNull();
      if (item instanceof Inbound.Message message) {
        return message;
      }
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void stampsTravelWithMessages(TestBroker broker) throws InterruptedException {
    InboundQueue queue = new InboundQueue(100, CLOCK);
    try (ListeningConnection listening = new ListeningConnection(settings(broker, "l1"), List.of("a/+"), queue);
        PublishingConnection sending = new PublishingConnection(settings(broker, "p1"), "run-7", Optional.empty(), ALL,
            CLOCK)) {
      sending.publish("a/b", "on".getBytes(StandardCharsets.UTF_8), false, 1234L);
      assertThat(sending.awaitAcknowledged(Duration.ofSeconds(10))).isTrue();
      assertThat(queue.take(10, TimeUnit.SECONDS)).isInstanceOf(Inbound.Connected.class);
      Inbound.Message message = (Inbound.Message) queue.take(10, TimeUnit.SECONDS);
      assertThat(message.topic()).isEqualTo("a/b");
      assertThat(message.payload()).asString().isEqualTo("on");
      assertThat(message.stamp()).isEqualTo(new Stamp("run-7", 1, 1234));
      assertThat(message.retained()).isFalse();
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void whatTheBrokerKeptIsMarkedAndWhatComesNowIsNot(TestBroker broker) throws InterruptedException {
    InboundQueue queue = new InboundQueue(100, CLOCK);
    try (Foreign foreign = new Foreign(broker.address(), "f2")) {
      foreign.send("kept/x", "1", 1, true);
      try (ListeningConnection listening = new ListeningConnection(settings(broker, "l2"), List.of("kept/x"), queue)) {
        Inbound.Message old = message(queue);
        assertThat(old.retained()).isTrue();
        foreign.send("kept/x", "2", 1, true);
        Inbound.Message live = message(queue);
        assertThat(live.payload()).asString().isEqualTo("2");
        assertThat(live.retained()).isFalse();
      }
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aKilledBrokerIsAGapAndWhatWasNotAcknowledgedIsSentAgain(TestBroker broker) throws InterruptedException {
    InboundQueue queue = new InboundQueue(100_000, CLOCK);
    try (ListeningConnection listening = new ListeningConnection(settings(broker, "l3"), List.of("k/#"), queue);
        PublishingConnection sending = new PublishingConnection(settings(broker, "p3"), "run", Optional.empty(), ALL,
            CLOCK)) {
      sending.publish("k/1", new byte[] {'1'}, false, Inbound.NO_NUMBER);
      assertThat(sending.awaitAcknowledged(Duration.ofSeconds(10))).isTrue();
      message(queue);
      broker.kill();
      Inbound lost = queue.take(20, TimeUnit.SECONDS);
      assertThat(lost).isInstanceOf(Inbound.Lost.class);
      sending.publish("k/2", new byte[] {'2'}, false, Inbound.NO_NUMBER);
      assertThat(sending.unacknowledged()).isEqualTo(1);
      broker.restart();
      Inbound back = queue.take(20, TimeUnit.SECONDS);
      assertThat(back).isInstanceOf(Inbound.Connected.class);
      assertThat(back.arrival()).isGreaterThan(lost.arrival());
      assertThat(sending.awaitAcknowledged(Duration.ofSeconds(20))).isTrue();
      assertThat(sending.connectionsLost()).isEqualTo(1);
      sending.publish("k/2", new byte[] {'3'}, false, Inbound.NO_NUMBER);
      assertThat(sending.awaitAcknowledged(Duration.ofSeconds(10))).isTrue();
      Awaitility.await().atMost(Duration.ofSeconds(10)).until(() -> message(queue).stamp().sequence() == 2);
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void thousandsAreAllAcknowledgedInOrder(TestBroker broker) throws InterruptedException {
    InboundQueue queue = new InboundQueue(10, CLOCK);
    try (ListeningConnection listening = new ListeningConnection(settings(broker, "l4"), List.of("many"), queue);
        PublishingConnection sending = new PublishingConnection(settings(broker, "p4"), "run", Optional.empty(), ALL,
            CLOCK)) {
      int count = 5000;
      for (int i = 1; i <= count; i++) {
        sending.publish("many", Integer.toString(i).getBytes(StandardCharsets.UTF_8), false, i);
      }
      assertThat(sending.awaitAcknowledged(Duration.ofSeconds(30))).isTrue();
      for (int i = 1; i <= count; i++) {
        Inbound.Message message = message(queue);
        assertThat(message.stamp().sequence()).isEqualTo(i);
        }
      assertThat(queue.dropped()).isZero();
    }
  }

  @Test
  void nothingAnsweringIsSaidPlainly() {
    BrokerAddress nowhere = new BrokerAddress(false, "127.0.0.1", Ports.free());
    assertThatThrownBy(() -> new ListeningConnection(ConnectionSettings.of(nowhere, "x"), List.of("a"),
        new InboundQueue(1, CLOCK)))
        .isInstanceOf(ConnectionTrouble.class).hasMessage("cannot connect to " + nowhere + ": nothing answers there");
  }
}
