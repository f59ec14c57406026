package dev.pawl.engine.graph;

import java.util.Arrays;

/** A queue of records of a fixed number of longs, which grows to the most it ever held and then allocates no more. */
public final class LongQueue {

  private static final int FIRST_CAPACITY = 8;

  /** A record takes as many longs as the next power of two, so that its place is found by a shift. */
  private final int shift;
  /** As many records fit as the mask says, and one more; they go round in a ring. */
  private int mask = FIRST_CAPACITY - 1;
  private long[] slots;
  private int head;
  private int size;

  /** A queue of records of {@code width} longs. */
  public LongQueue(int width) {
    this.shift = Integer.SIZE - Integer.numberOfLeadingZeros(width - 1);
    this.slots = new long[FIRST_CAPACITY << shift];
  }

  public int size() {
    return size;
  }

  public boolean isEmpty() {
    return size == 0;
  }

  /** Whether one more record will make the queue grow. */
  public boolean isFull() {
    return size > mask;
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
    if (isFull()) {
      grow();
    }
    return size++;
  }

  /** Drops the oldest record. */
  public void removeFirst() {
    head = head + 1 & mask;
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
    return (head + place & mask) << shift;
  }

  /** The records from the head to the end of the ring come first, then those that have gone round. */
  private void grow() {
    long[] grown = Arrays.copyOfRange(slots, head << shift, (head << shift) + 2 * slots.length);
    System.arraycopy(slots, 0, grown, slots.length - (head << shift), head << shift);
    slots = grown;
    head = 0;
    mask = 2 * mask + 1;
  }
}
