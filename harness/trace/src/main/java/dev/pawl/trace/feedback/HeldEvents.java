package dev.pawl.trace.feedback;

import java.util.Arrays;

/** Events, in order of time, that wait until it is known what they are worth. */
final class HeldEvents {

  /** Takes events as an {@link dev.pawl.engine.EventSink} does. */
  interface Taker {
    void take(long time, int signal, long value, long line);
  }

  private long[] times = new long[64];
  private int[] signals = new int[64];
  private long[] values = new long[64];
  private long[] lines = new long[64];
  private int first;
  private int next;

  boolean isEmpty() {
    return first == next;
  }

  /** Time of the first one. */
  long time() {
    return times[first];
  }

  void add(long time, int signal, long value, long line) {
    if (next == times.length) {
      makeRoom();
    }
    times[next] = time;
    signals[next] = signal;
    values[next] = value;
    lines[next++] = line;
  }

  private void makeRoom() {
    int length = first > next / 2 ? times.length : 2 * times.length;
    times = moved(times, length);
    values = moved(values, length);
    lines = moved(lines, length);
    signals = Arrays.copyOf(Arrays.copyOfRange(signals, first, next), length);
    next -= first;
    first = 0;
  }

  private long[] moved(long[] all, int length) {
    return Arrays.copyOf(Arrays.copyOfRange(all, first, next), length);
  }

  /** Lets the first one go. */
  void pass(Taker taker) {
    int passed = first++;
    taker.take(times[passed], signals[passed], values[passed], lines[passed]);
    if (first == next) {
      first = 0;
      next = 0;
    }
  }
}
