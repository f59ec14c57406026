package dev.pawl.mqtt.replay;

import static dev.pawl.mqtt.support.Rehearsal.day;
import static dev.pawl.mqtt.support.Rehearsal.judged;
import static dev.pawl.mqtt.support.Rehearsal.replay;
import static dev.pawl.mqtt.support.Rehearsal.trouble;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.Verdict;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.support.Rehearsal;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.support.TestBroker;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;

/**
 * A replay over a broker that keeps nothing over its end, and is killed on the way: both sides have to find each other
 * again, and what was lost is unknown, not invented.
 */
final class KilledBroker {

  private KilledBroker() {}

  /** The same, step by step through forty seconds. */
  static void requireAStatedGap(TestBroker broker, int after, Path file) throws IOException, InterruptedException {
    requireAStatedGap(broker, Pace.STEPPED, 40, after, file);
  }

  /**
   * Kills the broker after so many events, and requires that the gap is stated, that both sides go on, and that no rule
   * is called broken.
   */
  static void requireAStatedGap(TestBroker broker, Pace pace, int seconds, int after, Path file) throws IOException,
      InterruptedException {
    Ride.Kept merged = new Ride.Kept();
    Thread trouble = trouble(merged, after, () -> Rehearsal.replace(broker, Duration.ZERO));
    ReplayResult result = replay(broker, pace, day(seconds), 0, merged, file);
    trouble.join();
    assertThat(result.stopped()).isEmpty();
    assertThat(result.evidence()).filteredOn(item -> item.anomaly() == Anomaly.CONNECTION_GAP).singleElement()
        .satisfies(gap -> assertThat(gap.count()).isEqualTo(1));
    assertThat(merged.events()).extracting(Ride.Event::value).contains(EventSink.UNKNOWN);
    assertThat(result.end()).isGreaterThanOrEqualTo(day(seconds).end());
    // Both sides go on after the gap: the last train is seen, and answered.
    long last = day(seconds).end() - 900 * Ride.MS;
    assertThat(merged.events()).filteredOn(e -> e.time() > last && e.signal() == Ride.signal("lift_run"))
        .extracting(Ride.Event::value)
        .contains(1L, 0L);
    // As the tool judges a replay: a machine with too much to do is late on both sides, which breaks no rule.
    assertThat(judged(file, Widening.of(Ride.BOOK, result.pace().uncertainty()), new Ride.Findings()).rules())
        .extracting(rule -> rule.verdict()).doesNotContain(Verdict.BROKEN);
  }
}
