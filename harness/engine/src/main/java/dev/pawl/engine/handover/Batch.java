package dev.pawl.engine.handover;

import dev.pawl.engine.EventSink;

/** Events on their way from one thread to the other. */
final class Batch {

  /** A signal number that stands for a call of {@code advanceTo}. */
  private static final int ADVANCE = -1;

  private final long[] times;
  private final int[] signals;
  private final long[] values;
  private final long[] lines;
  private int count;

  Batch(int size) {
    times = new long[size];
    signals = new int[size];
    values = new long[size];
    lines = new long[size];
  }

  boolean isFull() {
    return count == times.length;
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
