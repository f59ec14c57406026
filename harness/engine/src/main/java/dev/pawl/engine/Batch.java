package dev.pawl.engine;

/** Events on their way to where they are taken, so many at a time. */
public final class Batch {

  /** A signal number that stands for a call of {@code advanceTo}. */
  private static final int ADVANCE = -1;

  /** Time, signal, value and line of an event are next to each other. */
  private static final int FIELDS = 4;

  private final long[] slots;
  private int filled;

  public Batch(int size) {
    slots = new long[size * FIELDS];
  }

  public boolean isFull() {
    return filled == slots.length;
  }

  public void clear() {
    filled = 0;
  }

  /** Adds an event. To be called only while the batch is not full. */
  public void event(long time, int signal, long value, long line) {
    int at = filled;
    slots[at + 3] = line;
    slots[at] = time;
    slots[at + 1] = signal;
    slots[at + 2] = value;
    filled = at + FIELDS;
  }

  /** Adds a call of {@code advanceTo}. To be called only while the batch is not full. */
  public void advance(long time) {
    event(time, ADVANCE, 0, 0);
  }

  /** Brings all events to a sink, in their order. */
  public void play(EventSink sink) {
    for (int at = 0; at < filled; at += FIELDS) {
      if (slots[at + 1] == ADVANCE) {
        sink.advanceTo(slots[at]);
      } else {
        sink.event(slots[at], (int) slots[at + 1], slots[at + 2], slots[at + 3]);
      }
    }
  }
}
