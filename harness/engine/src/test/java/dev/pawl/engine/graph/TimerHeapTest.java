package dev.pawl.engine.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** The heap always knows the earliest of the timers that are set, however they are moved and dropped. */
class TimerHeapTest {
  private static final int NODES = 40;

  @Test
  void takesTimersInTurnHoweverTheyAreMoved() {
    SplittableRandom random = new SplittableRandom(6);
    TimerHeap heap = new TimerHeap(NODES);
    Map<Integer, Long> expected = new TreeMap<>();
    long now = 0;
    for (int step = 0; step < 50_000; step++) {
      int node = random.nextInt(NODES);
      switch (random.nextInt(4)) {
        case 0 -> {
          heap.set(node, Moments.FOREVER);
          expected.remove(node);
        }
        case 1 -> {
          long earliest = earliest(expected);
          assertThat(heap.earliest()).isBetween(now, earliest);
          now = earliest == Moments.FOREVER ? now : earliest;
          assertThat(due(heap, now)).isEqualTo(due(expected, now));
        }
        default -> {
          long at = now + 1 + random.nextLong(200);
          heap.set(node, at);
          expected.put(node, at);
        }
      }
    }
  }

  @Test
  void empties() {
    TimerHeap heap = new TimerHeap(NODES);
    for (int node = 0; node < NODES; node++) {
      heap.set(node, 7L * node % 11);
    }
    for (int at = 0; at < 11; at++) {
      long moment = at;
      assertThat(heap.earliest()).isEqualTo(moment);
      assertThat(due(heap, moment)).hasSizeBetween(3, 4).allMatch(node -> 7L * node % 11 == moment);
    }
    assertThat(heap.earliest()).isEqualTo(Moments.FOREVER);
  }

  @Test
  void forgetsADroppedTimerInItsTurn() {
    TimerHeap heap = new TimerHeap(NODES);
    heap.set(3, 10);
    heap.set(4, 20);
    heap.set(3, Moments.FOREVER);
    assertThat(due(heap, 10)).isEmpty();
    assertThat(heap.earliest()).isEqualTo(20);
  }

  private static Set<Integer> due(TimerHeap heap, long moment) {
    Set<Integer> due = new TreeSet<>();
    while (heap.earliest() <= moment) {
      int node = heap.poll(heap.earliest());
      if (node >= 0) {
        due.add(node);
      }
    }
    return due;
  }

  private static Set<Integer> due(Map<Integer, Long> timers, long moment) {
    Set<Integer> due = new TreeSet<>();
    timers.forEach((node, at) -> {
      if (at <= moment) {
        due.add(node);
      }
    });
    timers.keySet().removeAll(due);
    return due;
  }

  private static long earliest(Map<Integer, Long> timers) {
    return timers.values().stream().mapToLong(Long::longValue).min().orElse(Moments.FOREVER);
  }
}
