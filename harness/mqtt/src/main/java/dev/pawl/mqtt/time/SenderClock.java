package dev.pawl.mqtt.time;

/**
 * The clock of one sender against the harness's. What arrives was stated earlier, so the difference of arrival and
 * stated time is the offset of the clocks plus a delay that is never negative, and the least difference is the best
 * that a one-way path can tell. The first one is kept as the offset, so that durations between stated times stay the
 * sender's own, for as long as what comes agrees with it within the tolerance. A difference that is less by more was no
 * delay: the clock was set forward, or the first message was slow. One that is greater may be a slow message; where all
 * are for a while, the clock was set back, or runs slow.
 */
public final class SenderClock {

  private static final long NONE = Long.MAX_VALUE;
  private static final long WHILE = 1_000_000_000L;
  private static final int MANY = 8;

  private final long tolerance;
  private long offset = NONE;
  private long least = NONE;
  private long greatest = Long.MIN_VALUE;
  private long samples;
  private long corrections;
  /**
   * Of the messages since the last that agreed with the offset: the first one's arrival, the least difference, and how
   * many.
   */
  private long slowSince;
  private long slowLeast = NONE;
  private int slow;

  /**
   * A clock that agrees with its offset as long as nothing shows that it is off by more than {@code tolerance}
   * nanoseconds.
   */
  public SenderClock(long tolerance) {
    this.tolerance = tolerance;
  }

  /**
   * Takes one pair of times, in nanoseconds.
   *
   * @return whether the offset has to be set anew: to {@link #wanted}
   */
  public boolean sample(long stated, long arrival) {
    long difference = arrival - stated;
    samples++;
    least = Math.min(least, difference);
    greatest = Math.max(greatest, difference);
    if (isKnown() && Math.abs(difference - offset) <= tolerance) {
      slow = 0;
      return false;
    }
    slowSince = slow == 0 ? arrival : slowSince;
    slowLeast = slow == 0 ? difference : Math.min(slowLeast, difference);
    slow++;
    boolean lasting = arrival - slowSince >= WHILE && (slow >= MANY || slowLeast - offset > 2 * tolerance);
    return !isKnown() || difference < offset || lasting;
  }

  /** The offset that fits what came since the last message that agreed with the present one. */
  public long wanted() {
    return slowLeast;
  }

  /** Sets the offset: to the one wanted, or to one near it. */
  public void set(long nanoseconds) {
    corrections += isKnown() ? 1 : 0;
    offset = nanoseconds;
    slow = 0;
  }

  public boolean isKnown() {
    return offset != NONE;
  }

  /** Whether an offset is the same within the tolerance. */
  public boolean agrees(long other) {
    return isKnown() && Math.abs(other - offset) <= tolerance;
  }

  /** Nanoseconds by which the harness's clock is ahead, the shortest delay included. */
  public long offset() {
    return offset;
  }

  /** How unsteady delay and clocks are: greatest minus least difference, in nanoseconds. */
  public long spread() {
    return greatest - least;
  }

  public long samples() {
    return samples;
  }

  /** How often the offset had to be set anew. */
  public long corrections() {
    return corrections;
  }
}
