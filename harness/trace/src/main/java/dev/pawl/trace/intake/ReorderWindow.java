package dev.pawl.trace.intake;

import java.util.Arrays;

/**
 * Events waiting to be put in order of time: a binary heap in plain arrays, with arrival order for those of one time.
 * Allocates only when it grows.
 */
public final class ReorderWindow {

  /** Takes events in order. */
  public interface Taker {
    void take(long time, int signal, long value, long line);
  }

  private static final int FIRST_CAPACITY = 1024;

  private long[] times = new long[FIRST_CAPACITY];
  private long[] orders = new long[FIRST_CAPACITY];
  private long[] values = new long[FIRST_CAPACITY];
  private long[] lines = new long[FIRST_CAPACITY];
  private int[] signals = new int[FIRST_CAPACITY];
  private int size;
  private long nextOrder;

  /** Adds an event. */
  public void add(long time, int signal, long value, long line) {
    if (size == times.length) {
      grow();
    }
    int at = size++;
    long order = nextOrder++;
    while (at > 0) {
      int parent = (at - 1) >>> 1;
      if (!before(time, order, parent)) {
        break;
      }
      move(parent, at);
      at = parent;
    }
    put(at, time, order, signal, value, line);
  }

  /** All waiting events of a signal get this value. */
  public void replace(int signal, long value) {
    for (int i = 0; i < size; i++) {
      values[i] = signals[i] == signal ? value : values[i];
    }
  }

  /** Hands over, in order, all events earlier than {@code limit}. */
  public void releaseBefore(long limit, Taker taker) {
    while (size > 0 && times[0] < limit) {
      long time = times[0];
      int signal = signals[0];
      long value = values[0];
      long line = lines[0];
      removeFirst();
      taker.take(time, signal, value, line);
    }
  }

  private void removeFirst() {
    int last = --size;
    long time = times[last];
    long order = orders[last];
    int signal = signals[last];
    long value = values[last];
    long line = lines[last];
    int at = 0;
    while (2 * at + 1 < size) {
      int child = 2 * at + 1;
      if (child + 1 < size && before(times[child + 1], orders[child + 1], child)) {
        child++;
      }
      if (before(time, order, child)) {
        break;
      }
      move(child, at);
      at = child;
    }
    put(at, time, order, signal, value, line);
  }

  private boolean before(long time, long order, int other) {
    return time < times[other] || time == times[other] && order < orders[other];
  }

  private void move(int from, int to) {
    put(to, times[from], orders[from], signals[from], values[from], lines[from]);
  }

  private void put(int at, long time, long order, int signal, long value, long line) {
    times[at] = time;
    orders[at] = order;
    signals[at] = signal;
    values[at] = value;
    lines[at] = line;
  }

  private void grow() {
    int capacity = 2 * times.length;
    times = Arrays.copyOf(times, capacity);
    orders = Arrays.copyOf(orders, capacity);
    values = Arrays.copyOf(values, capacity);
    lines = Arrays.copyOf(lines, capacity);
    signals = Arrays.copyOf(signals, capacity);
  }
}
