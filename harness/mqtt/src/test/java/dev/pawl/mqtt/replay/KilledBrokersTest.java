package dev.pawl.mqtt.replay;

import static dev.pawl.mqtt.support.Rehearsal.replay;

import dev.pawl.mqtt.support.Mosquitto;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A broker that keeps nothing is killed anywhere in a replay, many times over, on a machine that has too much to do:
 * which of the clients finds the new one first is left to chance.
 */
@Tag("soak")
class KilledBrokersTest {

  private static final int AT_ONCE = 24;
  private static final int KILLS = 60;
  private static final int KILLS_AT_A_PACE = 10;
  private static final long SEED = 20_261_126;

  @TempDir
  private Path folder;

  @Test
  void whereverABrokerIsKilledBetweenStepsNothingIsInvented() throws Exception {
    killOften(KILLS, (broker, random, file) -> KilledBroker.requireAStatedGap(broker, 1 + random.nextInt(60), file));
  }

  @Test
  void whereverABrokerIsKilledAtAPaceNothingIsInvented() throws Exception {
    killOften(KILLS_AT_A_PACE,
        (broker, random, file) -> KilledBroker.requireAStatedGap(broker, new Pace(1), 10, 1 + random.nextInt(35),
            file));
  }

  /** One replay with its kill. */
  private interface Kill {
    void in(Mosquitto broker, Random random, Path file) throws Exception;
  }

  private void killOften(int times, Kill kill) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(AT_ONCE);
    try {
      List<Future<?>> replays = new ArrayList<>();
      for (int i = 0; i < AT_ONCE; i++) {
        int number = i;
        replays.add(pool.submit(() -> {
          killOften(times, kill, Files.createDirectory(folder.resolve(Integer.toString(number))),
              new Random(SEED + number));
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

  private static void killOften(int times, Kill kill, Path own, Random random) throws Exception {
    try (Mosquitto broker = Mosquitto.start(own)) {
      for (int i = 0; i < times; i++) {
        kill.in(broker, random, own.resolve("killed.csv"));
      }
    }
  }
}
