package dev.pawl.mqtt.replay;

import static dev.pawl.mqtt.support.Rehearsal.day;
import static dev.pawl.mqtt.support.Rehearsal.inProcess;
import static dev.pawl.mqtt.support.Rehearsal.judged;
import static dev.pawl.mqtt.support.Rehearsal.replay;
import static dev.pawl.mqtt.support.Rehearsal.trouble;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.support.Bench;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.NewRows;
import dev.pawl.mqtt.support.Rehearsal;
import dev.pawl.mqtt.support.RelayLogic;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ReplayTest {

  private static final HarnessClock CLOCK = HarnessClock.started();
  private static final Duration LATE_MARKER = Duration.ofMillis(2500);

  @TempDir
  private static Path folder;

  static List<TestBroker> brokers() {
    return TestBrokers.all();
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void stepByStepGivesWhatTheLogicGivesInProcess(TestBroker broker) throws IOException {
    for (long stopDelay : new long[] {0, 400 * Ride.MS}) {
      Path file = folder.resolve("stepped.csv");
      Ride.Kept merged = new Ride.Kept();
      ReplayResult result = replay(broker, Pace.STEPPED, day(20), stopDelay, merged, file);
      assertThat(result.stopped()).isEmpty();
      assertThat(result.evidence()).isEmpty();

      Ride.Kept inProcess = new Ride.Kept();
      RelayLogic logic = new RelayLogic(inProcess, stopDelay);
      day(20).play(logic);
      logic.advanceTo(day(20).end() + 1);
      assertThat(merged.events()).hasSameSizeAs(inProcess.events())
          .containsExactlyInAnyOrderElementsOf(inProcess.events());
      assertThat(verdicts(judged(file))).isEqualTo(List.of(Verdict.HELD, stopDelay == 0 ? Verdict.HELD : Verdict.BROKEN,
          Verdict.HELD, Verdict.HELD));
    }
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void atAPaceLiveAndRecordedAreTheSame(TestBroker broker) throws IOException {
    Path file = folder.resolve("paced.csv");
    Ride.Findings live = new Ride.Findings();
    RuleEngine engine = Ride.engine(live);
    ReplayResult result = replay(broker, new Pace(4), day(6), 400 * Ride.MS, engine, file);
    assertThat(result.stopped()).isEmpty();
    assertThat(result.evidence()).isEmpty();
    assertThat(result.pace().inputs()).isEqualTo(18);
    assertThat(result.pace().uncertainty()).isGreaterThan(result.pace().worst());
    TraceOutcome outcome = engine.finish(result.end());

    Ride.Findings offline = new Ride.Findings();
    TraceOutcome again = judged(file, offline);
    assertThat(again).isEqualTo(outcome);
    assertThat(offline.list).isEqualTo(live.list);
    assertThat(outcome.rules().get(1).verdict()).isEqualTo(Verdict.BROKEN);
  }

  @Test
  void aBrokerKilledAndRestartedInTheMiddleIsAStatedGap() throws Exception {
    TestBrokers.each(broker -> KilledBroker.requireAStatedGap(broker, new Pace(1), 15, 15,
        folder.resolve("killed-" + broker + ".csv")));
  }

  /**
   * While the marker cannot be seen nothing is sent, and the trace waits; what is then said again must not undo what
   * comes next.
   */
  @Test
  void theTraceWaitsWhileNothingCanBeSentAndGoesOnAtItsPace() throws Exception {
    TestBrokers.each(broker -> {
      Ride.Kept merged = new Ride.Kept();
      Thread trouble = trouble(merged, 15, () -> Rehearsal.replace(broker, LATE_MARKER));
      ReplayResult result = replay(broker, new Pace(2), lateTrain(), 0, merged,
          folder.resolve("late-marker-" + broker + ".csv"));
      trouble.join();
      assertThat(result.stopped()).isEmpty();
      assertThat(result.pace().worst()).as("less late than the marker").isLessThan(LATE_MARKER.toNanos());
      assertThat(result.pace().worstDelay()).as("the way to the broker without the waiting")
          .isLessThan(LATE_MARKER.toNanos());
      assertThat(turns(merged, "near_flag")).containsExactly(0L, 1L);
      assertThat(turns(merged, "estop_chain")).isEqualTo(turns(inProcess(lateTrain(), 0), "estop_chain"));
    });
  }

  /** The chain turns all the time; a train comes once, after five seconds, in the middle of the gap. */
  private static InputSource lateTrain() {
    return new InputSource() {
      @Override
      public long end() {
        return 12_000 * Ride.MS;
      }

      @Override
      public void play(EventSink taker) {
        taker.event(0, Ride.signal("near_flag"), 0, 0);
        for (int turn = 0; turn < 60; turn++) {
          if (turn == 25) {
            taker.event(turn * 200 * Ride.MS, Ride.signal("near_flag"), 1, 0);
          }
          taker.event(turn * 200 * Ride.MS, Ride.signal("estop_chain"), turn % 2, 0);
        }
      }
    };
  }

  /** A signal's known values, in order, without repetitions. */
  private static List<Long> turns(Ride.Kept kept, String signal) {
    List<Long> turns = new ArrayList<>();
    for (Ride.Event event : kept.events()) {
      boolean known = event.signal() == Ride.signal(signal) && event.value() != EventSink.UNKNOWN;
      if (known && (turns.isEmpty() || turns.get(turns.size() - 1) != event.value())) {
        turns.add(event.value());
      }
    }
    return turns;
  }

  @Test
  void aBrokerKilledAndRestartedBetweenStepsIsAStatedGap() throws Exception {
    TestBrokers.each(broker -> KilledBroker.requireAStatedGap(broker, 25,
        folder.resolve("killed-stepped-" + broker + ".csv")));
  }

  @Test
  void withoutABenchSideItSaysSo() throws IOException {
    List<String> told = new ArrayList<>();
    ReplayResult result = unanswered("silent", Pace.STEPPED, Duration.ofSeconds(5), told);
    assertThat(result.stopped().orElseThrow())
        .startsWith("no bench side answers step 1 on pawl/done (nothing has come from there)");
    assertThat(told).as("it was said before the replay gave up, once").singleElement().asString()
        .startsWith("waiting for ")
        .contains(" s: no bench side answers step 1 on pawl/done (nothing has come from there); start it before the "
            + "replay");
  }

  @Test
  void aBenchSideThatAnswersWronglyIsQuotedAndNotTakenForAnAnswer() throws IOException {
    for (String answer : List.of("ready", "99 0", "1", "1 0 0 0")) {
      List<String> told = new ArrayList<>();
      TestBroker broker = TestBrokers.embedded();
      try (Foreign bench = new Foreign(broker.address(), "wrong-bench").listen(HandShake.STEP_TOPIC)) {
        Thread answering = new Thread(() -> {
          while (bench.next(5000) != null) {
            bench.send(HandShake.DONE_TOPIC, answer);
          }
        }, "test-answering");
        answering.start();
        ReplayResult result = unanswered("wrong", Pace.STEPPED, Duration.ofSeconds(4), told);
        String instead = "no bench side answers step 1 on pawl/done (what came instead was '" + answer + "', which "
            + (answer.equals("99 0") ? "answers a step that was not asked for" : "is not of the form NUMBER COUNT")
                + ")";
        assertThat(result.stopped().orElseThrow()).startsWith(instead);
        assertThat(told).singleElement().asString().contains(instead);
        answering.interrupt();
      }
    }
  }

  @Test
  void atAPaceItSaysThatNothingComesAndGoesOn() throws IOException {
    List<String> told = new ArrayList<>();
    ReplayResult result = unanswered("silent", new Pace(1), Duration.ofSeconds(5), told);
    assertThat(result.stopped()).isEmpty();
    assertThat(told).singleElement().asString().contains("nothing has come from a bench side", "the replay goes on");
  }

  private static ReplayResult unanswered(String prefix, Pace pace, Duration patience, List<String> told)
      throws IOException {
    TestBroker broker = TestBrokers.embedded();
    Bench.putUpMarker(broker, "bench-1");
    ConnectionSettings settings = ConnectionSettings.of(broker.address(), "replay");
    try (BenchGuard guard = new BenchGuard(settings.withClientId("guard"), "bench-1", CLOCK, Duration.ofSeconds(5));
        Recording recording = new Recording(NewRows.at(folder.resolve("alone.csv")), Ride.BOOK.signals(),
            TimeScale.NANOSECONDS)) {
      Replay replay = new Replay(new ReplaySetting(Ride.BOOK, TopicBindings.byName(Ride.BOOK, prefix), pace,
          new ReplayTimeouts(Duration.ZERO, patience, Duration.ZERO), CLOCK, () -> false));
      replay.tell(told::add);
      return replay.run(settings, guard, day(4), new Ride.Kept(), recording);
    }
  }

  private static List<Verdict> verdicts(TraceOutcome outcome) {
    return outcome.rules().stream().map(r -> r.verdict()).toList();
  }
}
