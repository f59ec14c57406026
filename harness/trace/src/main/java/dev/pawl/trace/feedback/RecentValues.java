package dev.pawl.trace.feedback;

import java.util.Arrays;

/** The value of an output, and those that it left not too long ago. */
final class RecentValues {

  private static final long NEVER = Long.MIN_VALUE;

  private final SameValue same;
  private final long memory;
  private long[] values = new long[4];
  private long[] ends = new long[4];
  private int size;
  private boolean known;
  private long value;

  /** The course of an output that remembers what it left for so many nanoseconds. */
  RecentValues(SameValue same, long memory) {
    this.same = same;
    this.memory = memory;
  }

  boolean isKnown() {
    return known;
  }

  long value() {
    return value;
  }

  boolean isLike(long other) {
    return same.isSame(value, other);
  }

  void come(long time, long next) {
    if (known && value != next) {
      leave(time);
    }
    known = true;
    value = next;
  }

  private void leave(long time) {
    int old = 0;
    while (old < size && time - ends[old] > memory) {
      old++;
    }
    size -= old;
    System.arraycopy(values, old, values, 0, size);
    System.arraycopy(ends, old, ends, 0, size);
    if (size == values.length) {
      values = Arrays.copyOf(values, 2 * size);
      ends = Arrays.copyOf(ends, 2 * size);
    }
    values[size] = value;
    ends[size++] = time;
  }

  /** When it last left a value like this one, as far as it remembers. */
  long left(long other) {
    for (int i = size - 1; i >= 0; i--) {
      if (same.isSame(values[i], other)) {
        return ends[i];
      }
    }
    return NEVER;
  }
}
