package dev.pawl.trace.ahead;

import dev.pawl.engine.EventSink;

/** Events on their way from one thread to the other. */
final class Batch {

  static final int SIZE = 1 << 13;

  /** A signal number that stands for a call of {@code advanceTo}. */
  private static final int ADVANCE = -1;

  private final long[] times = new long[SIZE];
  private final int[] signals = new int[SIZE];
  private final long[] values = new long[SIZE];
  private final long[] lines = new long[SIZE];
  private int count;

  boolean isFull() {
    return count == SIZE;
  }

  void clear() {
    count = 0;
  }

  void event(long time, int signal, long value, long line) {
    int at = count++;
    times[at] = time;
    signals[at] = signal;
    values[at] = value;
    lines[at] = line;
  }

  void advance(long time) {
    event(time, ADVANCE, 0, 0);
  }

  void play(EventSink sink) {
    for (int i = 0; i < count; i++) {
      if (signals[i] == ADVANCE) {
        sink.advanceTo(times[i]);
      } else {
        sink.event(times[i], signals[i], values[i], lines[i]);
      }
    }
  }
}
