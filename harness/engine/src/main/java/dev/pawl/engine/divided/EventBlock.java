package dev.pawl.engine.divided;

import dev.pawl.engine.EventSink;

/** Events in a row, a column each, on their way to another thread; an advance of time counts as an event without a signal. */
final class EventBlock {

  private static final int NO_SIGNAL = -1;

  private final long[] times;
  private final int[] signals;
  private final long[] values;
  private final long[] lines;
  private int count;

  EventBlock(int size) {
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

  void add(long time, int signal, long value, long line) {
    int at = count++;
    times[at] = time;
    signals[at] = signal;
    values[at] = value;
    lines[at] = line;
  }

  void addTime(long time) {
    add(time, NO_SIGNAL, 0, 0);
  }

  /** Gives all events on, in their order, and is empty then. */
  void drainTo(EventSink sink) {
    for (int at = 0; at < count; at++) {
      if (signals[at] == NO_SIGNAL) {
        sink.advanceTo(times[at]);
      } else {
        sink.event(times[at], signals[at], values[at], lines[at]);
      }
    }
    count = 0;
  }
}
