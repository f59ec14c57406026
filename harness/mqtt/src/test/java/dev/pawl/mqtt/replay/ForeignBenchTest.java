package dev.pawl.mqtt.replay;

import static dev.pawl.mqtt.support.Rehearsal.day;
import static dev.pawl.mqtt.support.Rehearsal.inProcess;
import static dev.pawl.mqtt.support.Rehearsal.judged;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.ForeignBench;
import dev.pawl.mqtt.support.Rehearsal;
import dev.pawl.mqtt.support.RelayLogic;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import dev.pawl.trace.bindings.BindingsFile;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Replays to a bench side of MQTT 3.1.1, which has no user properties: its times stand in payloads, or nowhere. */
class ForeignBenchTest {

  private static final long LATE = 400 * Ride.MS;
  private static final TopicBindings PLAIN = TopicBindings.byName(Ride.BOOK, "ride");
  private static final TopicBindings TIMED = TopicBindings.resolve(BindingsFile.parse(new Source("t", """
      topics
        near_flag   on "ride/near_flag"
        estop_chain on "ride/estop_chain"
        lift_run    on "ride/lift_run"   json "/v" trace time "/t" ns
        lift_speed  on "ride/lift_speed" json "/v" trace time "/t" ns
        lift_mode   on "ride/lift_mode"  json "/v" trace time "/t" ns
      """)), Ride.BOOK).bindings();

  @TempDir
  private Path folder;

  static List<TestBroker> brokers() {
    return TestBrokers.all();
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void stepByStepWithTheTimeInPayloadsItGivesWhatTheLogicGivesInProcess(TestBroker broker) throws Exception {
    for (long stopDelay : new long[] {0, LATE}) {
      Path file = folder.resolve("timed.csv");
      Ride.Kept merged = new Ride.Kept();
      try (ForeignBench bench = ForeignBench.stepped(broker.address(), Ride.BOOK, "ride", true, out ->
          new RelayLogic(out, stopDelay))) {
        ReplayResult result = Rehearsal.play(broker, TIMED, Pace.STEPPED, day(20), merged, file);
        assertThat(result.stopped()).isEmpty();
        assertThat(result.evidence()).isEmpty();
        assertThat(result.pace().uncertainty()).isZero();
      }
      assertThat(merged.events()).containsExactlyInAnyOrderElementsOf(inProcess(day(20), stopDelay).events());
      assertThat(verdicts(judged(file))).containsExactly(Verdict.HELD, stopDelay == 0 ? Verdict.HELD : Verdict.BROKEN,
          Verdict.HELD, Verdict.HELD);
    }
  }

  /** Without a time anywhere, an answer is known as finely as steps are short, and rules are judged no finer. */
  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void withoutAnyTimeAnAnswerBelongsToItsStepAndResolutionsAreWidenedByThat(TestBroker broker) throws Exception {
    long step = 10 * Ride.MS;
    Path file = folder.resolve("untimed.csv");
    Ride.Kept merged = new Ride.Kept();
    try (ForeignBench bench = ForeignBench.stepped(broker.address(), Ride.BOOK, "ride", false, out ->
        new RelayLogic(out, LATE))) {
      ReplayResult result = Rehearsal.play(broker, PLAIN, Pace.STEPPED.withLongestStep(step), day(2), merged, file);
      assertThat(result.stopped()).isEmpty();
      assertThat(result.evidence()).isEmpty();
      assertThat(result.pace().untimed()).isPositive();
      assertThat(result.pace().uncertainty()).isEqualTo(step);
    }
    List<Ride.Event> right = inProcess(day(2), LATE).events();
    assertThat(merged.events()).hasSameSizeAs(right).allSatisfy(event -> assertThat(right).anySatisfy(other -> {
      assertThat(event.signal()).isEqualTo(other.signal());
      assertThat(event.value()).isEqualTo(other.value());
      assertThat(event.time()).isBetween(other.time(), other.time() + step);
    }));
    assertThat(verdicts(judged(file)).get(1)).isEqualTo(Verdict.BROKEN);
  }

  @ParameterizedTest(autoCloseArguments = false)
  @MethodSource("brokers")
  void atAPaceItsAnswersAreTakenAsTheyArrive(TestBroker broker) throws Exception {
    Path file = folder.resolve("paced.csv");
    Ride.Findings live = new Ride.Findings();
    var engine = Ride.engine(live);
    try (ForeignBench bench = ForeignBench.paced(broker.address(), Ride.BOOK, "ride", 4, out ->
        new RelayLogic(out, LATE))) {
      ReplayResult result = Rehearsal.play(broker, PLAIN, new Pace(4), day(6), engine, file);
      assertThat(result.stopped()).isEmpty();
      assertThat(result.evidence()).isEmpty();
      TraceOutcome outcome = engine.finish(result.end());
      assertThat(outcome.rules().get(1).verdict()).isEqualTo(Verdict.BROKEN);
      assertThat(judged(file)).isEqualTo(outcome);
    }
  }

  /** Without numbers nothing tells a stranger's output from the bench side's; the counts of the hand-shake do. */
  @Test
  void whoElseSendsOutputsIsStated() throws Exception {
    TestBroker broker = TestBrokers.embedded();
    try (Foreign stranger = new Foreign(broker.address(), "stranger");
        ForeignBench bench = ForeignBench.stepped(broker.address(), Ride.BOOK, "ride", true, out -> {
          stranger.hurl("ride/lift_speed", "{\"v\":1,\"t\":0}");
          return new RelayLogic(out, 0);
        })) {
      ReplayResult result = Rehearsal.play(broker, TIMED, Pace.STEPPED, day(3), new Ride.Kept(),
          folder.resolve("stranger.csv"));
      assertThat(result.evidence()).filteredOn(item -> item.anomaly() == Anomaly.STRANGER).singleElement()
          .satisfies(item -> assertThat(item.count()).isEqualTo(1));
    }
  }

  private static List<Verdict> verdicts(TraceOutcome outcome) {
    return outcome.rules().stream().map(RuleOutcome::verdict).toList();
  }
}
