package dev.pawl.mqtt.live;

import static dev.pawl.mqtt.support.LiveSession.await;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.LiveSession;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.ScriptedBroker;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Packets that nobody can take, and a broker that says nothing more: what is not heard is not known, and is judged as
 * that.
 */
class DeafTest {

  private static final TopicBindings BINDINGS = TopicBindings.byName(Ride.BOOK, "ride");
  /** The greatest remaining length that MQTT can state: 268435455 (MQTT 5, section 1.5.5, from memory). */
  private static final int[] GREATEST = {0x30, 0xff, 0xff, 0xff, 0x7f, 0, 1};

  @TempDir
  private Path folder;

  static List<TestBroker> brokers() {
    return TestBrokers.all();
  }

  /** A broker that were told the limit would leave the message out and say nothing, so it is not told. */
  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aMessageThatIsTooLargeIsAGapOfAKnownPlace(TestBroker broker) throws Exception {
    try (Foreign ride = new Foreign(broker.address(), "ride"); LiveSession session =
        new LiveSession(folder, broker, BINDINGS)) {
      ride.send("ride/near_flag", "0");
      await(() -> session.kept.count() == 1);
      ride.hurl("ride/lift_speed", " ".repeat(2 << 20));
      await(() -> session.kept.count() == 2);
      await(session::isConnected);
      ride.send("ride/near_flag", "1");
      await(() -> session.kept.count() == 3);
      LiveResult result = session.end();
      assertThat(session.values("near_flag")).containsExactly(0L, EventSink.UNKNOWN, 1L);
      assertThat(gap(result)).contains("and 1048576 are taken at most");
      session.requireSameOffline(result);
    }
  }

  private static String gap(LiveResult result) {
    return result.evidence().stream().filter(i -> i.anomaly() == Anomaly.CONNECTION_GAP).findFirst().orElseThrow()
        .firstDetail();
  }

  @Test
  void whatIsAnnouncedAndNeverComesIsRefusedAtOnce() throws Exception {
    assertThat(gap(deafened(broker -> broker.raw(GREATEST))))
        .startsWith("the broker sends a message of 268435455 bytes");
  }

  @Test
  void whatComesByDribsIsNoSignOfLife() throws Exception {
    assertThat(gap(deafened(broker -> {
      broker.raw(0x30, 0xa0, 0x8d, 0x06);
      await(broker::dribbled);
    }))).isEqualTo("no sign of life came");
  }

  @Test
  void silenceIsNoticed() throws Exception {
    LiveResult result = deafened(broker -> broker.raw());
    assertThat(gap(result)).isEqualTo("no sign of life came");
    assertThat(LiveSession.count(result, Anomaly.SILENCE)).isEqualTo(1);
  }

  @Test
  void whatIsNoPacketIsRefused() throws Exception {
    assertThat(gap(deafened(broker -> broker.raw(0x30, 0xff, 0xff, 0xff, 0xff, 1)))).startsWith("what came is no MQTT");
  }

  /** The emergency stop held once; what happened while the session was deaf, nobody knows. */
  private LiveResult deafened(Consumer<ScriptedBroker> deafen) throws Exception {
    try (ScriptedBroker broker = new ScriptedBroker(); LiveSession session = new LiveSession(folder,
        ConnectionSettings.of(broker.address(), "watch").withKeepAlive(Duration.ofSeconds(2)), BINDINGS)) {
      broker.publish("ride/estop_chain", "1");
      broker.publish("ride/lift_run", "1");
      broker.publish("ride/estop_chain", "0");
      broker.publish("ride/lift_run", "0");
      await(() -> session.kept.time() > last(session) + Ride.MS * 400);
      broker.publish("ride/estop_chain", "1");
      await(() -> session.kept.count() == 5);
      deafen.accept(broker);
      await(() -> session.values("lift_run").contains(EventSink.UNKNOWN));
      await(session::isConnected);
      broker.publish("ride/lift_run", "0");
      broker.publish("ride/estop_chain", "1");
      await(() -> session.kept.count() == 9);
      LiveResult result = session.end();
      Obligations stop = session.engine.finish(result.end()).rules().get(1).obligations();
      assertThat(stop.met()).isEqualTo(1);
      assertThat(stop.unknownTriggers()).isPositive();
      assertThat(stop.verdict()).isEqualTo(Verdict.UNDECIDED);
      assertThat(LiveSession.count(result, Anomaly.CONNECTION_GAP)).isEqualTo(1);
      return result;
    }
  }

  private static long last(LiveSession session) {
    List<Ride.Event> events = session.kept.events();
    return events.size() < 4 ? Long.MAX_VALUE / 2 : events.get(3).time();
  }
}
