package dev.pawl.mqtt.client;

import dev.pawl.mqtt.time.HarnessClock;
import java.util.ArrayDeque;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * The bounded hand-over from connections to the one thread that works. Putting in never waits.
 *
 * <p>A message that needs an acknowledgement always finds room: the broker stops sending at the connection's receive maximum, and no
 * message is acknowledged before it is taken out and safe. Others are dropped once the queue is full; one {@link Inbound.Kind#OVERFLOW}
 * stands at that place in the queue, so that the loss is known where it happened.
 */
public final class InboundQueue {

  private final int capacity;
  private final HarnessClock clock;
  private final ArrayDeque<Inbound> items = new ArrayDeque<>();
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition filled = lock.newCondition();
  private boolean overflowing;
  private long dropped;
  private int fullest;

  /** A queue of at most {@code capacity} messages that need no acknowledgement, which times all that is put in. */
  public InboundQueue(int capacity, HarnessClock clock) {
    this.capacity = capacity;
    this.clock = clock;
  }

  /** Puts something in, or drops it and notes that; never waits for room. */
  public void put(Inbound item) {
    lock.lock();
    try {
      long now = clock.now();
      boolean droppable = item.kind() == Inbound.Kind.MESSAGE && !item.needsAcknowledgement();
      if (droppable && items.size() >= capacity) {
        dropped++;
        if (!overflowing) {
          overflowing = true;
          Inbound overflow = Inbound.news(Inbound.Kind.OVERFLOW, "more than " + capacity + " messages waited");
          overflow.arrivedAt(now);
          items.add(overflow);
        }
      } else {
        overflowing = overflowing && items.size() >= capacity;
        item.arrivedAt(now);
        items.add(item);
      }
      fullest = Math.max(fullest, items.size());
      filled.signal();
    } finally {
      lock.unlock();
    }
  }

  /** Takes the next out, waiting at most the given time; null if nothing came. */
  public Inbound take(long nanoseconds) throws InterruptedException {
    lock.lock();
    try {
      long left = nanoseconds;
      while (items.isEmpty()) {
        if (left <= 0) {
          return null;
        }
        left = filled.awaitNanos(left);
      }
      return items.poll();
    } finally {
      lock.unlock();
    }
  }

  /** Takes the next out, waiting at most the given time; null if nothing came. */
  public Inbound take(long time, TimeUnit unit) throws InterruptedException {
    return take(unit.toNanos(time));
  }

  /** A time, by the harness clock, before which nothing will be taken out any more. */
  public long settledUntil() {
    lock.lock();
    try {
      return items.isEmpty() ? clock.now() : items.peek().arrival();
    } finally {
      lock.unlock();
    }
  }

  /** Messages dropped so far. */
  public long dropped() {
    lock.lock();
    try {
      return dropped;
    } finally {
      lock.unlock();
    }
  }

  /** Most that ever waited at once. */
  public int fullest() {
    lock.lock();
    try {
      return fullest;
    } finally {
      lock.unlock();
    }
  }
}
