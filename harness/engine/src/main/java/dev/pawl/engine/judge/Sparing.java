package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;

/**
 * When {@code unless} became true: obligations from before are cancelled, but for those that may have been missed
 * before that, the order being open. In moments.
 */
public final class Sparing {

  /** How near to what breaks an obligation the order with {@code unless} is open. */
  public record Nearness(long before, long after, boolean sampled) {

    public static final Nearness NONE = new Nearness(0, 0, false);

    /**
     * The order is open of an {@code unless} that came less than {@code before} before what breaks an obligation, or
     * less than {@code after} after it; of one that came with it where something is sampled, or it is a deadline.
     */
    public static Nearness of(long before, long after, boolean sampled) {
      return new Nearness(Math.max(before, sampled ? 1 : 0), Math.max(after, sampled ? 1 : 0), sampled);
    }

    boolean isNone() {
      return before == 0 && after == 0;
    }
  }

  private final Nearness nearness;
  private final long lag;
  private final LongQueue rises = new LongQueue(1);
  private boolean spares;

  /** {@code lag}: how long after what breaks it an obligation is decided at most. */
  Sparing(Nearness nearness, long lag) {
    this.nearness = nearness;
    this.lag = lag;
  }

  /** Whether obligations are cancelled as soon as it is true. */
  boolean isExact() {
    return nearness.isNone();
  }

  boolean isEmpty() {
    return rises.isEmpty();
  }

  /** Takes note of whether it is true, and says whether it became so. */
  boolean follow(boolean isTrue, long moment) {
    boolean rises = isTrue && !spares;
    if (rises) {
      this.rises.set(this.rises.add(), 0, moment);
    }
    spares = isTrue;
    return rises;
  }

  /** When it first became true after a trigger; {@link Moments#NEVER} for not yet. */
  long since(long triggered) {
    for (int place = 0; place < rises.size(); place++) {
      if (rises.get(place, 0) > triggered) {
        return rises.get(place, 0);
      }
    }
    return Moments.NEVER;
  }

  /** Whether it became true for the first time after a trigger when it last did. */
  boolean sparedJustNow(long triggered) {
    return since(triggered) == rises.get(rises.size() - 1, 0);
  }

  /** Whether it cancels an obligation that ends as {@code kind}, null for as is asked, at a place. */
  boolean cancels(Kind kind, long triggered, long place) {
    long rise = since(triggered);
    return rise != Moments.NEVER && (kind == null || rise <= place - nearness.before
        || rise == place && !nearness.sampled && isAnEvent(kind));
  }

  /** Whether it may have become true before what breaks an obligation at a place. */
  boolean mayCancel(long triggered, long place) {
    long rise = since(triggered);
    return rise != Moments.NEVER && rise < place + nearness.after;
  }

  /** The moment from which on it surely became true after what broke an obligation at a place. */
  long surelyAfter(long place) {
    return place + nearness.after;
  }

  private static boolean isAnEvent(Kind kind) {
    return kind == Kind.NOT_THROUGHOUT || kind == Kind.NOT_SUSTAINED || kind == Kind.OUT_OF_ORDER;
  }

  /** The moment before which obligations are over that it cancels; {@link Moments#NEVER} for none at this moment. */
  long over(long moment) {
    return !rises.isEmpty() && (isExact() || rises.get(0, 0) + nearness.before + lag < moment) ? rises.get(0, 0)
        : Moments.NEVER;
  }

  void forgetOldest() {
    rises.removeFirst();
  }

  long nextWake() {
    return rises.isEmpty() ? Moments.FOREVER : rises.get(0, 0) + nearness.before + lag + 1;
  }
}
