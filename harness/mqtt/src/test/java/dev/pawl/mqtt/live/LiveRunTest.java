package dev.pawl.mqtt.live;

import static dev.pawl.mqtt.support.LiveSession.await;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.feed.RowFile;
import dev.pawl.mqtt.support.Bench;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.FullDisk;
import dev.pawl.mqtt.support.LiveSession;
import dev.pawl.mqtt.support.Mosquitto;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.bindings.BindingsFile;
import dev.pawl.trace.intake.Progress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.eclipse.paho.mqttv5.common.packet.UserProperty;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Watching and recording against real brokers, with foreign clients of MQTT 3.1.1 on the other side, and everything
 * that can go wrong.
 */
class LiveRunTest {

  private static final HarnessClock CLOCK = HarnessClock.started();

  @TempDir
  private static Path folder;

  static List<TestBroker> brokers() {
    return TestBrokers.all();
  }

  private static TopicBindings byName() {
    return TopicBindings.byName(Ride.BOOK, "ride");
  }

  private static TopicBindings bindings(String entries) {
    return TopicBindings.resolve(BindingsFile.parse(new Source("t", "topics\n" + entries)), Ride.BOOK).bindings();
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aForeignClientBreaksARuleAtItsDeadlineAndTheRecordingSaysTheSame(TestBroker broker) throws Exception {
    try (LiveSession session = new LiveSession(folder, broker, byName());
        Foreign ride = new Foreign(broker.address(), "ride")) {
      ride.send("ride/lift_run", "0");
      ride.send("ride/near_flag", "0");
      ride.send("ride/near_flag", "1");
      // No further message comes: the deadline itself makes the finding.
      await(() -> session.findings.count() == 1);
      ride.send("ride/lift_speed", "2.5");
      await(() -> session.kept.count() == 4);
      LiveResult result = session.end();
      assertThat(result.messages()).isEqualTo(4);
      assertThat(result.evidence()).isEmpty();
      session.requireSameOffline(result);
      // That the speed was not known at first leaves its rule undecided no longer than that.
      assertThat(session.findings.list).extracting(f -> f.rule() + " " + f.kind()).containsExactly("0 NO_RESPONSE");
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aKilledBrokerIsAStatedGapInWhichNothingIsKnown(TestBroker broker) throws Exception {
    try (LiveSession session = new LiveSession(folder, broker, byName())) {
      try (Foreign ride = new Foreign(broker.address(), "ride")) {
        ride.send("ride/lift_run", "1");
        ride.send("ride/near_flag", "0");
        await(() -> session.kept.count() == 2);
      }
      broker.kill();
      await(() -> !session.isConnected());
      broker.restart();
      await(session::isConnected);
      try (Foreign ride = new Foreign(broker.address(), "ride")) {
        ride.send("ride/near_flag", "1");
        await(() -> session.kept.count() == 5);
        assertThat(session.kept.events().subList(2, 4)).extracting(Ride.Event::value).containsOnly(EventSink.UNKNOWN);
        assertThat(session.kept.events().get(4).value()).isEqualTo(1);
      }
      LiveResult result = session.end();
      assertThat(session.count(result, Anomaly.CONNECTION_GAP)).isEqualTo(1);
      session.requireSameOffline(result);
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void rubbishFloodsAndKeptValuesAreToldAndHarmNothing(TestBroker broker) throws Exception {
    try (Foreign ride = new Foreign(broker.address(), "ride")) {
      ride.send("ride/lift_run", "1", 1, true);
      try (LiveSession session = new LiveSession(folder, broker, byName())) {
        await(() -> session.kept.count() == 1);
        ride.send("ride/near_flag", "0");
        ride.send("ride/near_flag", new byte[] {(byte) 0xff, (byte) 0xfe}, 1, false);
        ride.send("ride/near_flag", "</script><script>alert(1)</script>");
        ride.send("ride/lift_speed", "NaN");
        for (int i = 0; i < 2000; i++) {
          ride.send("elsewhere/" + i % 50, "x".repeat(200), 0, false);
        }
        ride.send("ride/near_flag", "1");
        await(() -> session.kept.count() == 4);
        LiveResult result = session.end();
        assertThat(session.count(result, Anomaly.MALFORMED)).isEqualTo(3);
        assertThat(session.count(result, Anomaly.RETAINED)).isEqualTo(1);
        assertThat(result.messages()).isEqualTo(6);
        assertThat(session.kept.events()).extracting(Ride.Event::value).containsExactly(1L, 0L, EventSink.UNKNOWN, 1L);
        session.requireSameOffline(result);
      }
      ride.send("ride/lift_run", "", 1, true);
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void numberedMessagesShowWhatWasLostRepeatedOrOvertaken(TestBroker broker) throws Exception {
    try (LiveSession session = new LiveSession(folder, broker, byName())) {
      for (int number : new int[] {1, 2, 2, 5, 4, 6}) {
        Bench.send(broker, "ride/near_flag", Integer.toString(number % 2), false, null,
            new UserProperty("pawl-run", "r"), new UserProperty("pawl-seq", Integer.toString(number)));
      }
      await(() -> session.kept.count() >= 5);
      LiveResult result = session.end();
      assertThat(session.count(result, Anomaly.DUPLICATE)).isEqualTo(1);
      assertThat(session.count(result, Anomaly.SEQUENCE_GAP)).isEqualTo(1);
      assertThat(session.count(result, Anomaly.REORDERED)).isEqualTo(1);
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void statedTimesArePutInOrderAndAClockJumpIsTold(TestBroker broker) throws Exception {
    TopicBindings bindings =
        bindings("  near_flag on \"a\" json \"/v\" time \"/t\" ms\n  lift_run on \"b\" json \"/v\" time \"/t\" ms\n");
    try (LiveSession session = new LiveSession(folder, broker, bindings);
        Foreign ride = new Foreign(broker.address(), "ride")) {
      long now = CLOCK.now() / 1_000_000;
      ride.send("b", "{\"v\":0,\"t\":" + (now + 60) + "}");
      ride.send("a", "{\"v\":0,\"t\":" + (now + 20) + "}");
      ride.send("a", "{\"v\":1,\"t\":" + (now + 40) + "}");
      await(() -> session.kept.count() == 3);
      List<Long> distances = session.kept.events().stream()
          .map(e -> (e.time() - session.kept.events().get(0).time()) / 1_000_000).toList();
      assertThat(distances).containsExactly(0L, 20L, 40L);
      ride.send("a", "{\"v\":0,\"t\":" + (now + 3_600_000) + "}");
      await(() -> session.kept.count() == 5);
      LiveResult result = session.end();
      assertThat(session.count(result, Anomaly.CLOCK_JUMP)).isEqualTo(1);
      assertThat(result.clocks()).extracting(LiveResult.ClockState::corrections).containsExactlyInAnyOrder(0L, 1L);
      assertThat(session.values("near_flag")).containsExactly(0L, 1L, EventSink.UNKNOWN, 0L);
      assertThat(session.kept.events().get(4).time() / 1_000_000).isLessThan(now + 60_000);
      session.requireSameOffline(result);
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void aSlowTakerLosesNoAcknowledgedMessageAndSaysWhereOthersWereLost(TestBroker broker) throws Exception {
    LiveOptions small = new LiveOptions(Duration.ZERO, 50, LiveOptions.DEFAULT.patience());
    Path file = folder.resolve("slow-" + CLOCK.now() + ".csv");
    try (LiveSession session = new LiveSession(folder, broker, byName(), new RowFile(FullDisk.slow(file)), small);
        Foreign ride = new Foreign(broker.address(), "ride")) {
      for (int i = 1; i <= 400; i++) {
        ride.send("ride/lift_speed", Integer.toString(i));
      }
      await(() -> session.kept.count() == 400);
      LiveResult result = session.end();
      assertThat(result.messages()).isEqualTo(400);
      assertThat(result.evidence()).isEmpty();
    }
  }

  @Test
  void aFullDiskEndsTheRecordingAtAWholeRowAndSaysSo() throws Exception {
    TestBroker broker = TestBrokers.embedded();
    Path file = folder.resolve("full.csv");
    try (LiveSession session = new LiveSession(folder, broker, byName(), new RowFile(FullDisk.after(file, 200)),
        LiveOptions.DEFAULT);
        Foreign ride = new Foreign(broker.address(), "ride")) {
      for (int i = 0; i < 20 && session.result() == null; i++) {
        ride.send("ride/near_flag", Integer.toString(i % 2));
      }
      await(() -> session.result() != null);
      LiveResult result = session.end();
      assertThat(result.recordingFailure()).contains("No space left on device");
      try (TraceReader reader = Traces.open(file, TraceOptions.of(Ride.BOOK))) {
        TraceSummary summary = reader.readTo(new Ride.Kept(), Progress.NONE);
        assertThat(summary.diagnostics()).isEmpty();
        assertThat(summary.counts().events()).isPositive();
      }
    }
  }

  @Test
  void commandLineClientsBreakARuleAndReadTheVerdictTopic() throws Exception {
    Assumptions.assumeTrue(Mosquitto.isInstalled(), "Mosquitto is not installed");
    Mosquitto broker = (Mosquitto) TestBrokers.all().get(1);
    try (LiveSession session = new LiveSession(folder, broker, byName());
        VerdictPublisher publisher = new VerdictPublisher(Ride.BOOK, VerdictTopics.under("verdicts", byName()),
            ConnectionSettings.of(broker.address(), "verdicts"), CLOCK)) {
      session.watching.add(publisher);
      Process reading = broker.begin("mosquitto_sub", "-V", "mqttv311", "-t", "verdicts/#", "-C", "1", "-W", "20",
          "-v");
      await(() -> broker.log().contains("mosq-") || broker.log().contains("auto-"));
      broker.command("mosquitto_pub", "-V", "mqttv311", "-q", "1", "-t", "ride/lift_speed", "-m", "3.5");
      await(() -> session.findings.count() == 1);
      String said = new String(reading.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertThat(said).startsWith("verdicts/SPEED-01 {\"rule\":\"SPEED-01\"")
          .contains("\"verdict\":\"broken\"", "\"kind\":\"false-state\"");
      LiveResult result = session.end();
      assertThat(session.engine.finish(result.end()).rules().get(2).verdict()).isEqualTo(Verdict.BROKEN);
    }
  }
}
