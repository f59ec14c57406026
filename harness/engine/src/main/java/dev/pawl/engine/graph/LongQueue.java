package dev.pawl.engine.graph;

/** A queue of records of a fixed number of longs, which grows to the most it ever held and then allocates no more. */
public final class LongQueue {

  private final int width;
  private long[] slots;
  private int head;
  private int size;

  /** A queue of records of {@code width} longs. */
  public LongQueue(int width) {
    this.width = width;
    this.slots = new long[width * 8];
  }

  public int size() {
    return size;
  }

  public boolean isEmpty() {
    return size == 0;
  }

  /** Field {@code field} of the record at {@code place}, 0 being the oldest. */
  public long get(int place, int field) {
    return slots[slot(place) + field];
  }

  public void set(int place, int field, long value) {
    slots[slot(place) + field] = value;
  }

  /** Adds a record at the end, its fields to be set, and returns its place. */
  public int add() {
    if ((size + 1) * width > slots.length) {
      grow();
    }
    return size++;
  }

  /** Drops the oldest record. */
  public void removeFirst() {
    head = head + width == slots.length ? 0 : head + width;
    size--;
  }

  /** Drops the newest record. */
  public void removeLast() {
    size--;
  }

  public void clear() {
    size = 0;
    head = 0;
  }

  private int slot(int place) {
    int slot = head + place * width;
    return slot >= slots.length ? slot - slots.length : slot;
  }

  private void grow() {
    long[] grown = new long[slots.length * 2];
    int first = Math.min(size * width, slots.length - head);
    System.arraycopy(slots, head, grown, 0, first);
    System.arraycopy(slots, 0, grown, first, size * width - first);
    slots = grown;
    head = 0;
  }
}
