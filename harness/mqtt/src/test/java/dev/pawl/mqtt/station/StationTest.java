package dev.pawl.mqtt.station;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.replay.HandShake;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.support.Bench;
import dev.pawl.mqtt.support.Rehearsal;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.mqtt.time.HarnessClock;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The bench side of a step-by-step replay, with the other side played by hand. */
class StationTest {

  private static final HarnessClock CLOCK = HarnessClock.started();

  private final TestBroker broker = TestBrokers.embedded();
  private final InboundQueue heard = new InboundQueue(1_000, CLOCK);
  private final List<String> outputs = new ArrayList<>();
  private Bench bench;
  private ListeningConnection ear;

  @BeforeEach
  void serve() {
    bench = Rehearsal.bench(broker, "hand", Pace.STEPPED, 0);
    ear = new ListeningConnection(ConnectionSettings.of(broker.address(), "ear"),
        List.of("hand/lift_run", HandShake.DONE_TOPIC), heard);
  }

  @AfterEach
  void end() {
    ear.close();
    bench.close();
  }

  private void input(String signal, String value) {
    Bench.send(broker, "hand/" + signal, value, false, null);
  }

  private void ask(long number, long sent, long time) {
    Bench.send(broker, HandShake.STEP_TOPIC, new String(new HandShake(number, sent, time).bytes(),
        StandardCharsets.US_ASCII), false, null);
  }

  /** Asks for a step, and waits for its answer. */
  private void step(long number, long sent, long time) throws InterruptedException {
    ask(number, sent, time);
    HandShake answer = HandShake.answer(0, 0);
    while (answer.number() != number || answer.again()) {
      answer = answer(10_000).orElseThrow(() -> new AssertionError("step " + number + " is not taken"));
    }
  }

  /** The next answer; empty if none comes in time. */
  private Optional<HandShake> answer(long milliseconds) throws InterruptedException {
    while (true) {
      Inbound item = heard.take(TimeUnit.MILLISECONDS.toNanos(milliseconds));
      if (item == null) {
        return Optional.empty();
      } else if (item instanceof Inbound.Message message && message.topic().equals(HandShake.DONE_TOPIC)) {
        return HandShake.parse(message.payload());
      } else if (item instanceof Inbound.Message message) {
        outputs.add(message.topic() + " " + new String(message.payload(), StandardCharsets.UTF_8));
      }
    }
  }

  /** As when the answer was late, or the broker sends again what was not acknowledged before a cut. */
  @Test
  void aStepThatIsAskedForAgainTakesNothingFromTheNext() throws InterruptedException {
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

  /** The broker acknowledges an input and dies before it is delivered. */
  @Test
  void aStepWhoseInputsWereLostWithTheBrokerIsNotTakenBeforeTheyAreSaidAgain() throws InterruptedException {
    input("estop_chain", "1");
    input("near_flag", "0");
    step(1, 2, 0);
    Rehearsal.replace(broker, Duration.ZERO);

    Optional<HandShake> answer = Optional.empty();
    for (int i = 0; answer.isEmpty() && i < 30; i++) {
      ask(2, 3, 100 * Ride.MS);
      answer = answer(300);
    }
    assertThat(answer.orElseThrow().number()).isEqualTo(2);
    assertThat(answer.orElseThrow().again()).isTrue();
    ask(2, 3, 100 * Ride.MS);
    assertThat(answer(10_000).orElseThrow().again()).as("asked before that answer was there").isTrue();
    input("estop_chain", "1");
    input("near_flag", "1");
    step(2, 5, 100 * Ride.MS);
    step(3, 5, 150 * Ride.MS);

    assertThat(outputs).containsExactly("hand/lift_run 0", "hand/lift_run 1");
  }
}
