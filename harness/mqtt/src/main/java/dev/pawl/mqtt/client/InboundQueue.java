package dev.pawl.mqtt.client;

import dev.pawl.mqtt.time.HarnessClock;
import java.util.ArrayDeque;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.LongSupplier;

/**
 * The bounded hand-over from connections to the one thread that works. Putting in never waits.
 *
 * <p>A message that can be acknowledged is acknowledged as soon as it has a place here: brokers send the next ones only then, and a late
 * acknowledgement would make all arrivals late. Once the queue is full, acknowledgements are withheld until the message is taken out, so
 * that the broker keeps the rest, and nothing is lost. Messages that cannot be acknowledged are dropped then, as is any for whose bytes there is
 * no room; one
 * {@link Inbound.Kind#OVERFLOW} stands at that place in the queue, so that the loss is known where it happened.
 */
public final class InboundQueue {

  /** Most bytes of payloads that wait; a single one may be larger. */
  private static final long MOST_BYTES = 64L << 20;

  private final int capacity;
  private final HarnessClock clock;
  private final ArrayDeque<Inbound> items = new ArrayDeque<>();
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition filled = lock.newCondition();
  private boolean overflowing;
  private long bytes;
  private long lastArrival = Long.MIN_VALUE;
  private int withheld;
  private long dropped;
  private int fullest;

  /** A queue with room for {@code capacity} messages, which times all that is put in. */
  public InboundQueue(int capacity, HarnessClock clock) {
    this.capacity = capacity;
    this.clock = clock;
  }

  /** Puts something in, or drops it and notes that; never waits for room. */
  public void put(Inbound item) {
    if (enter(item)) {
      item.acknowledge();
    }
  }

  /** Whether the item is to be acknowledged now. */
  private boolean enter(Inbound item) {
    lock.lock();
    try {
      long now = clock.now();
      boolean full = items.size() >= capacity;
      boolean tooLarge = bytes > 0 && bytes + item.payload().length > MOST_BYTES;
      if (item.kind() == Inbound.Kind.MESSAGE && (tooLarge || full && !item.needsAcknowledgement())) {
        drop(now);
        return item.needsAcknowledgement();
      }
      overflowing = overflowing && full;
      lastArrival = Math.max(lastArrival, item.happened(now));
      item.arrivedAt(lastArrival);
      bytes += item.payload().length;
      items.add(item);
      fullest = Math.max(fullest, items.size());
      filled.signal();
      boolean withhold = item.needsAcknowledgement() && (full || withheld > 0);
      withheld += withhold ? 1 : 0;
      item.withhold(withhold);
      return item.needsAcknowledgement() && !withhold;
    } finally {
      lock.unlock();
    }
  }

  private void drop(long now) {
    dropped++;
    if (!overflowing) {
      overflowing = true;
      Inbound overflow = Inbound.news(Inbound.Kind.OVERFLOW, items.size() < capacity ? "more than " + MOST_BYTES + " bytes waited"
          : "more than " + capacity + " messages waited");
      lastArrival = now;
      overflow.arrivedAt(now);
      items.add(overflow);
    }
  }

  /** Takes the next out, waiting at most the given time; null if nothing came. */
  public Inbound take(long nanoseconds) throws InterruptedException {
    Inbound item = leave(nanoseconds);
    if (item != null && item.isWithheld()) {
      item.acknowledge();
    }
    return item;
  }

  private Inbound leave(long nanoseconds) throws InterruptedException {
    lock.lock();
    try {
      long left = nanoseconds;
      while (items.isEmpty()) {
        if (left <= 0) {
          return null;
        }
        left = filled.awaitNanos(left);
      }
      Inbound item = items.poll();
      bytes -= item.payload().length;
      withheld -= item.isWithheld() ? 1 : 0;
      return item;
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

  /** The same, where what may have come in the last so many nanoseconds is not known. */
  public long settledUntil(LongSupplier silence) {
    long now = clock.now();
    return Math.min(now - silence.getAsLong(), settledUntil());
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
