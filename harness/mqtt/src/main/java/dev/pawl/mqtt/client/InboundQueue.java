package dev.pawl.mqtt.client;

import dev.pawl.mqtt.time.HarnessClock;
import java.util.ArrayDeque;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.LongFunction;
import java.util.function.LongSupplier;

/**
 * The bounded hand-over from connections to the one thread that works. Putting in never waits.
 *
 * <p>A message that can be acknowledged is acknowledged as soon as it has a place here: brokers send the next ones only
 * then, and a late acknowledgement would make all arrivals late. Once the queue is full, acknowledgements are withheld
 * until the message is taken out, so that the broker keeps the rest, and nothing is lost. Messages that cannot be
 * acknowledged are dropped then, as is any for whose bytes there is no room; one {@link Inbound.Overflow} stands at
 * that place in the queue, so that the loss is known where it happened.
 */
public final class InboundQueue {

  /** Most bytes of payloads that wait; a single one may be larger. */
  private static final long MOST_BYTES = 64L << 20;

  private final int capacity;
  private final HarnessClock clock;
  private final ArrayDeque<Waiting> items = new ArrayDeque<>();
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition filled = lock.newCondition();
  private boolean overflowing;
  private long bytes;
  private long lastArrival = Long.MIN_VALUE;
  private int withheld;
  private long dropped;

  /** A queue with room for {@code capacity} messages, which times all that is put in. */
  public InboundQueue(int capacity, HarnessClock clock) {
    this.capacity = capacity;
    this.clock = clock;
  }

  /**
   * Something that waits.
   *
   * @param bytes of its payload
   * @param withheld tells the broker, when it is taken out, that it has a place here
   */
  private record Waiting(Inbound item, int bytes, Optional<Runnable> withheld) {}

  /**
   * Puts something in that is no message and always has a place.
   *
   * @param item makes it, of the time at which it came
   */
  public void put(LongFunction<Inbound> item) {
    lock.lock();
    try {
      add(item, clock.now(), 0, Optional.empty());
    } finally {
      lock.unlock();
    }
  }

  /**
   * Puts in the news that a connection is gone, at its last sign of life.
   *
   * @param silence nanoseconds since then
   */
  void putLost(String detail, LongSupplier silence) {
    lock.lock();
    try {
      long now = clock.now();
      long silent = silence.getAsLong();
      add(arrival -> new Inbound.Lost(detail, silent, arrival), now - silent, 0, Optional.empty());
    } finally {
      lock.unlock();
    }
  }

  /**
   * Puts a message in, or drops it and notes that; never waits for room.
   *
   * @param bytes of its payload
   * @param message makes it, of the time at which it came
   * @param acknowledgement tells the broker that it has a place here; empty where the broker does not ask
   */
  void putMessage(int bytes, LongFunction<Inbound> message, Optional<Runnable> acknowledgement) {
    if (enter(bytes, message, acknowledgement)) {
      acknowledgement.ifPresent(Runnable::run);
    }
  }

  /** Whether the message is to be acknowledged now, if at all. */
  private boolean enter(int size, LongFunction<Inbound> message, Optional<Runnable> acknowledgement) {
    lock.lock();
    try {
      long now = clock.now();
      boolean full = items.size() >= capacity;
      boolean tooLarge = bytes > 0 && bytes + size > MOST_BYTES;
      if (tooLarge || full && acknowledgement.isEmpty()) {
        drop(now);
        return true;
      }
      boolean withhold = acknowledgement.isPresent() && (full || withheld > 0);
      withheld += withhold ? 1 : 0;
      add(message, now, size, withhold ? acknowledgement : Optional.empty());
      return !withhold;
    } finally {
      lock.unlock();
    }
  }

  private void add(LongFunction<Inbound> item, long happened, int size, Optional<Runnable> withheldAcknowledgement) {
    overflowing = overflowing && items.size() >= capacity;
    lastArrival = Math.max(lastArrival, happened);
    bytes += size;
    items.add(new Waiting(item.apply(lastArrival), size, withheldAcknowledgement));
    filled.signal();
  }

  private void drop(long now) {
    dropped++;
    if (!overflowing) {
      overflowing = true;
      String what = items.size() < capacity ? "more than " + MOST_BYTES + " bytes waited"
          : "more than " + capacity + " messages waited";
      lastArrival = now;
      items.add(new Waiting(new Inbound.Overflow(what, now), 0, Optional.empty()));
    }
  }

  /** Takes the next out, waiting at most the given time; null if nothing came. */
  public Inbound take(long nanoseconds) throws InterruptedException {
    Waiting first = leave(nanoseconds);
    if (first == null) {
      return null;
    }
    first.withheld().ifPresent(Runnable::run);
    return first.item();
  }

  private Waiting leave(long nanoseconds) throws InterruptedException {
    lock.lock();
    try {
      long left = nanoseconds;
      while (items.isEmpty()) {
        if (left <= 0) {
          return null;
        }
        left = filled.awaitNanos(left);
      }
      Waiting first = items.poll();
      bytes -= first.bytes();
      withheld -= first.withheld().isPresent() ? 1 : 0;
      return first;
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
      return items.isEmpty() ? clock.now() : items.peek().item().arrival();
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
}
