package dev.pawl.mqtt.station;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.replay.HandShake;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.support.Bench;
import dev.pawl.mqtt.support.RelayLogic;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.mqtt.time.HarnessClock;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** The bench side of a step-by-step replay, with the other side played by hand. */
class StationTest {
  private static final HarnessClock CLOCK = HarnessClock.started();

  private final TestBroker broker = TestBrokers.embedded();
  private final InboundQueue heard = new InboundQueue(1_000, CLOCK);
  private final List<String> outputs = new ArrayList<>();

  private void input(String signal, String value) {
    Bench.send(broker, "hand/" + signal, value, false, null);
  }

  /** Asks for a step, and waits for its answer. */
  private void step(long number, long sent, long time) throws InterruptedException {
    Bench.send(broker, HandShake.STEP_TOPIC, new String(new HandShake(number, sent, time).bytes(), StandardCharsets.US_ASCII), false, null);
    long answered = 0;
    while (answered != number) {
      Inbound item = heard.take(TimeUnit.SECONDS.toNanos(10));
      assertThat(item).as("answer to step %d", number).isNotNull();
      if (item.topic().equals(HandShake.DONE_TOPIC)) {
        answered = HandShake.parse(item.payload()).orElseThrow().number();
      } else if (item.kind() == Inbound.Kind.MESSAGE) {
        outputs.add(item.topic() + " " + new String(item.payload(), StandardCharsets.UTF_8));
      }
    }
  }

  /** As when the answer was late, or the broker sends again what was not acknowledged before a cut. */
  @Test
  void aStepThatIsAskedForAgainTakesNothingFromTheNext() throws InterruptedException {
    TopicBindings bindings = TopicBindings.byName(Ride.BOOK, "hand");
    Bench.putUpMarker(broker, "bench-1");
    Station station = new Station(Ride.BOOK, bindings, out -> new RelayLogic(out, 0), Pace.STEPPED, CLOCK);
    try (Bench bench = Bench.serve(station, broker, "bench-1", CLOCK);
        ListeningConnection ear = new ListeningConnection(ConnectionSettings.of(broker.address(), "ear"),
            List.of("hand/lift_run", HandShake.DONE_TOPIC), heard)) {
      input("estop_chain", "1");
      input("near_flag", "0");
      step(1, 2, 0);
      step(2, 2, 50 * Ride.MS);
      assertThat(outputs).hasSize(1);
      input("near_flag", "1");
      step(2, 2, 50 * Ride.MS);
      step(3, 3, 100 * Ride.MS);
      step(4, 3, 150 * Ride.MS);

      assertThat(outputs).hasSize(2).doesNotHaveDuplicates();
    }
  }
}
