package dev.pawl.engine.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** The heap always knows the earliest of the timers that are set, however they are moved and dropped. */
class TimerHeapTest {
  private static final int NODES = 40;

  @Test
  void knowsTheEarliestTimer() {
    SplittableRandom random = new SplittableRandom(6);
    TimerHeap heap = new TimerHeap(NODES);
    Map<Integer, Long> expected = new TreeMap<>();
    for (int step = 0; step < 50_000; step++) {
      int node = random.nextInt(NODES);
      switch (random.nextInt(4)) {
        case 0 -> {
          heap.remove(node);
          expected.remove(node);
        }
        case 1 -> poll(heap, expected);
        default -> {
          long at = random.nextLong(200);
          heap.set(node, at);
          expected.put(node, at);
        }
      }
      assertThat(heap.earliest()).isEqualTo(earliest(expected));
    }
  }

  @Test
  void empties() {
    TimerHeap heap = new TimerHeap(NODES);
    for (int node = 0; node < NODES; node++) {
      heap.set(node, 7L * node % 11);
    }
    long before = 0;
    for (int polled = 0; polled < NODES; polled++) {
      assertThat(heap.earliest()).isGreaterThanOrEqualTo(before);
      before = heap.earliest();
      assertThat(7L * heap.poll() % 11).isEqualTo(before);
    }
    assertThat(heap.earliest()).isEqualTo(Moments.FOREVER);
  }

  private static void poll(TimerHeap heap, Map<Integer, Long> expected) {
    if (!expected.isEmpty()) {
      long earliest = earliest(expected);
      assertThat(expected.remove(heap.poll())).isEqualTo(earliest);
    }
  }

  private static long earliest(Map<Integer, Long> timers) {
    return timers.values().stream().mapToLong(Long::longValue).min().orElse(Moments.FOREVER);
  }
}
