package dev.pawl.mqtt.guard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.PublishRefused;
import dev.pawl.mqtt.client.PublishingConnection;
import dev.pawl.mqtt.support.Bench;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.mqtt.time.HarnessClock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.awaitility.Awaitility;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class BenchGuardTest {

  private static final HarnessClock CLOCK = HarnessClock.started();

  static List<TestBroker> brokers() {
    return TestBrokers.all();
  }

  private static BenchGuard guard(TestBroker broker, long milliseconds) {
    return new BenchGuard(ConnectionSettings.of(broker.address(), "guard"), "bench-7", CLOCK,
        Duration.ofMillis(milliseconds));
  }

  private static String refusal(TestBroker broker) {
    try (BenchGuard guard = guard(broker, 400)) {
      return guard.refusal("any").orElse("");
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void onlyAMarkerThatIsRetainedNamesTheBenchAndExpiresOpensIt(TestBroker broker) {
    Bench.send(broker, BenchGuard.TOPIC, "", true, null);
    assertThat(refusal(broker)).contains("no bench marker 'bench-7' stands on pawl/bench");
    Bench.send(broker, BenchGuard.TOPIC, "bench-7", true, null);
    assertThat(refusal(broker)).contains("has no expiry");
    Bench.send(broker, BenchGuard.TOPIC, "other", true, 3600L);
    assertThat(refusal(broker)).contains("names another bench");
    Bench.send(broker, BenchGuard.TOPIC, "bench-7", true, 100_000L);
    assertThat(refusal(broker)).contains("lives for more than 24 hours");
    Bench.send(broker, BenchGuard.TOPIC, "bench-7", true, 3600L);
    assertThat(refusal(broker)).isEmpty();
  }

  /** As after a broker came back with nothing kept: the guard is there before the marker. */
  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aMarkerThatIsPutUpWhileItLooksOpensItUnlessItIsNotKept(TestBroker broker) {
    Bench.send(broker, BenchGuard.TOPIC, "", true, null);
    try (BenchGuard guard = guard(broker, 200)) {
      assertThat(guard.refusal("in/a").orElse("")).contains("no bench marker");
      Bench.send(broker, BenchGuard.TOPIC, "bench-7", false, 3600L);
      Awaitility.await().atMost(Duration.ofSeconds(10)).until(() -> guard.refusal("in/a").orElse("")
          .contains("is not retained"));
      Bench.send(broker, BenchGuard.TOPIC, "bench-7", true, 3600L);
      assertThat(guard.awaitOpen(Duration.ofSeconds(10))).isTrue();
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void itShutsWhenTheMarkerIsTakenDownOrExpires(TestBroker broker) {
    Bench.send(broker, BenchGuard.TOPIC, "bench-7", true, 3600L);
    try (BenchGuard guard = guard(broker, 5000);
        Foreign all = new Foreign(broker.address(), "all").listen("in/#");
        PublishingConnection sending = new PublishingConnection(ConnectionSettings.of(broker.address(), "p"), "run",
            Optional.empty(), guard, CLOCK)) {
      sending.publish("in/a", new byte[] {'1'}, false, Inbound.NO_NUMBER);
      assertThat(all.next(10_000).text()).isEqualTo("1");
      Bench.send(broker, BenchGuard.TOPIC, "", true, null);
      Awaitility.await().atMost(Duration.ofSeconds(10)).until(() -> guard.refusal("in/a").isPresent());
      assertThatThrownBy(() -> sending.publish("in/a", new byte[] {'2'}, false, Inbound.NO_NUMBER))
          .isInstanceOf(PublishRefused.class)
          .hasMessage("nothing is published: the bench marker was taken down");
    }
    Bench.send(broker, BenchGuard.TOPIC, "bench-7", true, 2L);
    try (BenchGuard guard = guard(broker, 5000)) {
      assertThat(guard.refusal("in/a")).isEmpty();
      Awaitility.await().atMost(Duration.ofSeconds(10)).until(() -> guard.refusal("in/a").orElse("")
          .contains("has expired"));
    }
  }
}
