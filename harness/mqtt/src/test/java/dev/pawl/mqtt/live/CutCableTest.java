package dev.pawl.mqtt.live;

import static dev.pawl.mqtt.support.LiveSession.await;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.support.Cable;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.LiveSession;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The cable between a broker, which goes on living, and a session that watches and records is cut, or dies and nobody
 * is told.
 */
class CutCableTest {

  @TempDir
  private Path folder;

  static List<TestBroker> brokers() {
    return TestBrokers.all();
  }

  private static double number(long value) {
    return Double.longBitsToDouble(value);
  }

  private LiveSession session(Cable cable, int keepAlive) throws Exception {
    ConnectionSettings settings = ConnectionSettings.of(cable.address(), "watch")
        .withKeepAlive(Duration.ofSeconds(keepAlive));
    return new LiveSession(folder, settings, TopicBindings.byName(Ride.BOOK, "ride"));
  }

  /**
   * The sender counts, without a pause: what comes is a run of numbers up to each cut, unknown, and a run from
   * somewhere later on.
   */
  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void betweenCutsNothingIsMissingAndEachCutIsAStatedGap(TestBroker broker) throws Exception {
    int cuts = 3;
    int last = 0;
    try (Cable cable = new Cable(broker.address()); LiveSession session = session(cable, 10);
        Foreign ride = new Foreign(broker.address(), "ride")) {
      for (int cut = 0; cut < cuts; cut++) {
        int heard = session.kept.count();
        while (session.kept.count() < heard + 20) {
          ride.send("ride/lift_speed", Integer.toString(++last));
        }
        cable.kill();
        ride.send("ride/lift_speed", Integer.toString(++last));
        await(() -> !session.isConnected());
        cable.restart();
        await(session::isConnected);
      }
      ride.send("ride/lift_speed", Integer.toString(++last));
      double end = last;
      await(() -> session.values("lift_speed").stream().anyMatch(v -> number(v) == end));
      LiveResult result = session.end();
      assertThat(LiveSession.count(result, Anomaly.CONNECTION_GAP)).isEqualTo(cuts);
      List<Long> values = session.values("lift_speed");
      assertThat(values.stream().filter(v -> v == EventSink.UNKNOWN)).hasSize(cuts);
      assertThat(missing(values)).hasSizeLessThanOrEqualTo(cuts)
          .allSatisfy(place -> assertThat(values.get(place - 1)).isEqualTo(EventSink.UNKNOWN));
      session.requireSameOffline(result);
    }
  }

  /** Places in the list at which the count of the sender goes on by more than one. */
  private static List<Integer> missing(List<Long> values) {
    List<Integer> places = new ArrayList<>();
    double before = 0;
    for (int place = 0; place < values.size(); place++) {
      if (values.get(place) != EventSink.UNKNOWN) {
        if (number(values.get(place)) != before + 1) {
          places.add(place);
        }
        before = number(values.get(place));
      }
    }
    return places;
  }

  @Test
  void aDeadCableShowsByItsSilence() throws Exception {
    TestBroker broker = TestBrokers.embedded();
    try (Cable cable = new Cable(broker.address()); LiveSession session = session(cable, 1);
        Foreign ride = new Foreign(broker.address(), "ride")) {
      ride.send("ride/near_flag", "0");
      await(() -> session.kept.count() == 1);
      cable.freeze();
      ride.send("ride/near_flag", "1");
      await(() -> !session.isConnected());
      await(session::isConnected);
      ride.send("ride/near_flag", "0");
      await(() -> session.kept.count() == 3);
      LiveResult result = session.end();
      assertThat(session.values("near_flag")).containsExactly(0L, EventSink.UNKNOWN, 0L);
      assertThat(LiveSession.count(result, Anomaly.CONNECTION_GAP)).isEqualTo(1);
      assertThat(result.evidence()).filteredOn(item -> item.anomaly() == Anomaly.SILENCE).singleElement()
          .satisfies(item -> assertThat(item.firstDetail()).matches("nothing came for [0-9.]+ s"));
      session.requireSameOffline(result);
    }
  }
}
