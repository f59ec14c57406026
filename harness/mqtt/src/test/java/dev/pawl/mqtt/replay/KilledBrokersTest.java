package dev.pawl.mqtt.replay;

import static dev.pawl.mqtt.support.Rehearsal.day;
import static dev.pawl.mqtt.support.Rehearsal.judged;
import static dev.pawl.mqtt.support.Rehearsal.replay;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.support.Bench;
import dev.pawl.mqtt.support.Mosquitto;
import dev.pawl.mqtt.support.Ride;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A broker that keeps nothing is killed anywhere in a step-by-step replay, many times over, on a machine that has too much to do: which of
 * the clients finds the new one first is left to chance.
 */
@Tag("soak")
class KilledBrokersTest {

  private static final int AT_ONCE = 24;
  private static final int KILLS = 60;
  private static final long SEED = 20_261_126;

  @TempDir
  private Path folder;

  @Test
  void whereverABrokerIsKilledNothingIsInvented() throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(AT_ONCE);
    try {
      List<Future<?>> replays = new ArrayList<>();
      for (int i = 0; i < AT_ONCE; i++) {
        int number = i;
        replays.add(pool.submit(() -> {
          killOften(Files.createDirectory(folder.resolve(Integer.toString(number))), new Random(SEED + number));
          return null;
        }));
      }
      for (Future<?> each : replays) {
        each.get();
      }
    } finally {
      pool.shutdownNow();
    }
  }

  private static void killOften(Path own, Random random) throws Exception {
    try (Mosquitto broker = Mosquitto.start(own)) {
      for (int i = 0; i < KILLS; i++) {
        kill(broker, 1 + random.nextInt(60), own.resolve("killed.csv"));
      }
    }
  }

  private static void kill(Mosquitto broker, int after, Path file) throws IOException, InterruptedException {
    Ride.Kept merged = new Ride.Kept();
    Thread trouble = new Thread(() -> {
      Awaitility.await().atMost(Duration.ofSeconds(60)).pollInterval(Duration.ofMillis(1)).until(() -> merged.count() > after);
      broker.kill();
      broker.restart();
      Bench.putUpMarker(broker, "bench-1");
    }, "test-trouble");
    trouble.start();
    ReplayResult result = replay(broker, Pace.STEPPED, day(40), 0, merged, file);
    trouble.join();
    assertThat(result.stopped()).isEmpty();
    assertThat(result.evidence()).filteredOn(item -> item.anomaly() == Anomaly.CONNECTION_GAP).singleElement()
        .satisfies(gap -> assertThat(gap.count()).isEqualTo(1));
    long last = day(40).end() - 900 * Ride.MS;
    assertThat(merged.events()).filteredOn(e -> e.time() > last && e.signal() == Ride.signal("lift_run")).extracting(Ride.Event::value)
        .contains(1L, 0L);
    assertThat(judged(file).rules()).extracting(rule -> rule.verdict()).doesNotContain(Verdict.BROKEN);
  }
}
