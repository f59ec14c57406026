package dev.pawl.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Caution;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.replay.HandShake;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.support.Bench;
import dev.pawl.mqtt.support.Rehearsal;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.trace.bindings.BindingsFile;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What BROKER.md says is what happens. */
class BrokerPageTest {

  private static final HarnessClock CLOCK = HarnessClock.started();
  private static final String FENCE = "```";

  private final InboundQueue heard = new InboundQueue(1_000, CLOCK);
  private final TestBroker broker = TestBrokers.embedded();
  private String page;

  @BeforeEach
  void read() throws IOException {
    page = Files.readString(Path.of("BROKER.md"));
  }

  /** The lines of the page's blocks that begin with the given text. */
  private List<List<String>> blocks(String beginning) {
    List<List<String>> blocks = new ArrayList<>();
    String[] parts = page.split("(?m)^" + FENCE + "\n?");
    for (int i = 1; i < parts.length; i += 2) {
      if (parts[i].startsWith(beginning)) {
        blocks.add(parts[i].lines().toList());
      }
    }
    return blocks;
  }

  @Test
  void theTableSaysWhatTheResultSays() {
    List<String> rows = page.lines().filter(line -> line.startsWith("| ")).skip(2).toList();
    assertThat(rows).containsExactlyElementsOf(Arrays.stream(Anomaly.values())
        .map(a -> "| " + a.label() + " | " + a.treatment() + " |").toList());
  }

  @Test
  void theExampleOfBindingsIsTaken() {
    String text = String.join("\n", blocks("topics").get(0)) + "\n";
    TopicBindings.Resolved resolved = TopicBindings.resolve(BindingsFile.parse(new Source("page.bindings", text)),
        Ride.BOOK);
    assertThat(resolved.diagnostics()).isEmpty();
    assertThat(resolved.bindings().list()).hasSameSizeAs(Ride.BOOK.signals());
  }

  @Test
  void theMarkerIsPutUpAsTheGuardSays() {
    assertThat(blocks("mosquitto_pub").get(0)).containsExactly(BenchGuard.COMMAND);
    assertThat(page.substring(0, page.indexOf(BenchGuard.COMMAND)).lines().skip(1)
        .filter(line -> line.contains("puts the marker up")))
        .as("just before the command").singleElement().asString().contains(Caution.INJECTION.text());
  }

  @Test
  void theHandShakeGoesAsWritten() throws InterruptedException {
    List<List<String>> exchanges = blocks("harness  ");
    assertThat(exchanges).hasSize(2);
    try (Bench bench = Rehearsal.bench(broker, "bench", Pace.STEPPED, 0);
        ListeningConnection ear = new ListeningConnection(ConnectionSettings.of(broker.address(), "ear"),
            List.of("bench/lift_run", "bench/lift_speed", "bench/lift_mode", HandShake.DONE_TOPIC), heard)) {
      play(exchanges.get(0));
      Rehearsal.replace(broker, Duration.ZERO);
      play(exchanges.get(1));
    }
  }

  /** Says what the harness says, and compares what the bench side answers to each step. */
  private void play(List<String> lines) throws InterruptedException {
    List<String> expected = new ArrayList<>();
    String step = "";
    for (String line : lines) {
      String[] words = line.split(" +", 3);
      if (words[0].equals("bench")) {
        expected.add(words[1] + " " + words[2]);
      } else if (words[1].equals(HandShake.STEP_TOPIC)) {
        step = words[2];
      } else {
        Bench.send(broker, words[1], words[2], false, null);
      }
      if (words[1].equals(HandShake.DONE_TOPIC)) {
        assertThat(answers(step, expected.get(expected.size() - 1))).containsExactlyInAnyOrderElementsOf(expected);
        expected.clear();
      }
    }
  }

  /**
   * Asks for a step, again and again as long as the bench side is not there; what it then answers to an earlier asking
   * is left out.
   */
  private List<String> answers(String step, String done) throws InterruptedException {
    List<String> answers = new ArrayList<>();
    Bench.send(broker, HandShake.STEP_TOPIC, step, false, null);
    for (int silence = 0; silence < 30; silence++) {
      for (Inbound item = next(); item != null; item = next()) {
        if (item instanceof Inbound.Message message) {
          String answer = message.topic() + " " + new String(message.payload(), StandardCharsets.UTF_8);
          if (answer.equals(done) || !answer.endsWith(" again")) {
            answers.add(answer);
          }
          if (answers.contains(done)) {
            return answers;
          }
        }
      }
      Bench.send(broker, HandShake.STEP_TOPIC, step, false, null);
    }
    throw new AssertionError("no answer to step " + step);
  }

  private Inbound next() throws InterruptedException {
    return heard.take(TimeUnit.MILLISECONDS.toNanos(500));
  }
}
