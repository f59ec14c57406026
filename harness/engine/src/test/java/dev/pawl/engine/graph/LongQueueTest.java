package dev.pawl.engine.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * The queue behaves as the one of the Java library, while it grows and while its records go round the end of its slots.
 */
class LongQueueTest {

  @Test
  void behavesAsTheLibrarysQueue() {
    SplittableRandom random = new SplittableRandom(5);
    LongQueue queue = new LongQueue(3);
    Deque<long[]> expected = new ArrayDeque<>();
    int most = 0;
    for (int step = 0; step < 20_000; step++) {
      boolean filling = step / 500 % 2 == 0;
      if (random.nextInt(100) < (filling ? 60 : 35)) {
        add(queue, expected, random.nextLong());
      } else if (!expected.isEmpty()) {
        remove(queue, expected, random.nextInt(100));
      }
      most = Math.max(most, expected.size());
      assertSame(queue, expected);
    }
    assertThat(most).as("records held at once").isGreaterThan(64);
  }

  private static void add(LongQueue queue, Deque<long[]> expected, long value) {
    int place = queue.add();
    assertThat(place).isEqualTo(expected.size());
    for (int field = 0; field < 3; field++) {
      queue.set(place, field, value + field);
    }
    expected.addLast(new long[] {value, value + 1, value + 2});
  }

  private static void remove(LongQueue queue, Deque<long[]> expected, int chance) {
    if (chance == 0) {
      queue.clear();
      expected.clear();
    } else if (chance < 20) {
      queue.removeLast();
      expected.removeLast();
    } else {
      queue.removeFirst();
      expected.removeFirst();
    }
  }

  private static void assertSame(LongQueue queue, Deque<long[]> expected) {
    assertThat(queue.size()).isEqualTo(expected.size());
    assertThat(queue.isEmpty()).isEqualTo(expected.isEmpty());
    int place = 0;
    for (Iterator<long[]> records = expected.iterator(); records.hasNext(); place++) {
      long[] record = records.next();
      for (int field = 0; field < 3; field++) {
        assertThat(queue.get(place, field)).isEqualTo(record[field]);
      }
    }
  }
}
