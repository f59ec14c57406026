package dev.pawl.mqtt.replay;

import static dev.pawl.mqtt.support.Rehearsal.day;
import static dev.pawl.mqtt.support.Rehearsal.inProcess;
import static dev.pawl.mqtt.support.Rehearsal.judged;
import static dev.pawl.mqtt.support.Rehearsal.replay;
import static dev.pawl.mqtt.support.Rehearsal.trouble;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.support.Cable;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import dev.pawl.mqtt.support.TestBrokers;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The cable between the broker, which goes on living, and one side of a replay is cut, or dies and nobody is told. */
class CutCableTest {

  @TempDir
  private Path folder;

  private static long count(ReplayResult result, Anomaly anomaly) {
    return result.evidence().stream().filter(item -> item.anomaly() == anomaly).mapToLong(EvidenceLog.Item::count)
        .sum();
  }

  /**
   * Step by step no time depends on a message's arrival, and both sides ask the broker to keep what comes while they
   * are away.
   */
  @Test
  void stepByStepACutOnEitherSideLosesNothing() throws Exception {
    TestBrokers.each(this::cutOnEitherSide);
  }

  private void cutOnEitherSide(TestBroker broker) throws Exception {
    InputSource day = day(15);
    for (boolean benchSide : new boolean[] {true, false}) {
      for (boolean told : new boolean[] {true, false}) {
        Ride.Kept merged = new Ride.Kept();
        Path file = folder.resolve("cut-" + broker + ".csv");
        try (Cable cable = new Cable(broker.address())) {
          Thread trouble = trouble(merged, 25, told ? () -> cut(cable) : cable::freeze);
          ReplayResult result = replay(benchSide ? cable : broker, benchSide ? broker : cable, Pace.STEPPED, day, 0,
              merged, file);
          trouble.join();
          assertThat(result.stopped()).isEmpty();
          assertThat(count(result, Anomaly.CONNECTION_GAP)).isZero();
          assertThat(count(result, Anomaly.RESUMED)).isEqualTo(benchSide ? 0 : 1);
        }
        assertThat(merged.events()).containsExactlyInAnyOrderElementsOf(inProcess(day, 0).events());
        assertThat(judged(file).rules()).extracting(RuleOutcome::verdict).containsOnly(Verdict.HELD);
      }
    }
  }

  private static void cut(Cable cable) {
    cable.kill();
    cable.restart();
  }

  /** The bench side misses what comes while it is away; what stands at its inputs is said to it when it is back. */
  @Test
  void atAPaceACutOnTheBenchSideIsAStatedGap() throws Exception {
    TestBrokers.each(broker -> {
      Ride.Kept merged = new Ride.Kept();
      InputSource day = day(12);
      Path file = folder.resolve("bench-cut-" + broker + ".csv");
      try (Cable cable = new Cable(broker.address())) {
        Thread trouble = trouble(merged, 15, () -> cut(cable));
        ReplayResult result = replay(cable, broker, new Pace(1), day, 0, merged, file);
        trouble.join();
        assertThat(result.stopped()).isEmpty();
        assertThat(count(result, Anomaly.CONNECTION_GAP)).isZero();
        assertThat(result.evidence()).filteredOn(item -> item.anomaly() == Anomaly.BENCH_GAP).singleElement()
            .satisfies(gap -> {
          assertThat(gap.count()).isEqualTo(1);
          assertThat(gap.signals()).containsExactlyInAnyOrder(Ride.signal("lift_run"), Ride.signal("lift_speed"),
              Ride.signal("lift_mode"));
          assertThat(merged.events()).contains(new Ride.Event(gap.firstTime(), Ride.signal("lift_mode"),
              EventSink.UNKNOWN));
          assertThat(merged.events()).filteredOn(e -> e.signal() == Ride.signal("lift_mode")
              && e.time() > gap.firstTime())
              .first().satisfies(e -> assertThat(e.time() - gap.firstTime()).isLessThan(2000 * Ride.MS));
        });
        assertThat(merged.events()).filteredOn(e -> e.value() == EventSink.UNKNOWN).extracting(Ride.Event::signal)
            .doesNotContain(Ride.signal("near_flag"), Ride.signal("estop_chain"));
      }
    });
  }

  @Test
  void atAPaceADeadCableIsNoticedByItsSilenceAndTheGapIsStated() throws Exception {
    TestBroker broker = TestBrokers.embedded();
    Ride.Kept merged = new Ride.Kept();
    Path file = folder.resolve("clamped.csv");
    try (Cable cable = new Cable(broker.address())) {
      Thread trouble = trouble(merged, 15, () -> {
        cable.freeze();
      });
      ReplayResult result = replay(broker, cable, new Pace(1), day(12), 0, merged, file);
      trouble.join();
      assertThat(result.stopped()).isEmpty();
      assertThat(count(result, Anomaly.CONNECTION_GAP)).isPositive();
      assertThat(result.evidence()).filteredOn(item -> item.anomaly() == Anomaly.SILENCE).isNotEmpty()
          .allSatisfy(item -> assertThat(item.firstDetail()).matches("nothing came for [0-9.]+ s"));
      assertThat(result.pace().uncertainty()).isGreaterThan(Duration.ofSeconds(1).toNanos());
    }
  }
}
