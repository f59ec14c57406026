package dev.pawl.mqtt.time;

/**
 * The estimated offset of a foreign clock: the smallest difference of arrival and stated time seen so far. What arrives was stated
 * earlier, so the difference is the offset plus a delay that is never negative, and its minimum is the best that a one-way path can tell:
 * too great by the shortest delay. The estimate only falls, so arrivals mapped by it never run backwards.
 */
public final class ClockOffset {

  private static final long NONE = Long.MAX_VALUE;

  private final long jump;
  private long estimate = NONE;
  private long greatest = Long.MIN_VALUE;
  private long samples;

  /** An estimator that takes departures of more than {@code jump} nanoseconds for a jump of the clock. */
  public ClockOffset(long jump) {
    this.jump = jump;
  }

  /** Whether a pair of times departs so far from the estimate that the clock must have jumped. */
  public boolean isJump(long stated, long arrival) {
    return isKnown() && Math.abs(arrival - stated - estimate) > jump;
  }

  /** Takes one pair of times, in nanoseconds. */
  public void sample(long stated, long arrival) {
    long difference = arrival - stated;
    samples++;
    estimate = Math.min(estimate, difference);
    greatest = Math.max(greatest, difference);
  }

  /** Nanoseconds to take off an arrival to get the foreign clock's time; 0 while nothing is known. */
  public long nanoseconds() {
    return isKnown() ? estimate : 0;
  }

  /** How unsteady delay and clocks are: greatest minus smallest difference, in nanoseconds. */
  public long spread() {
    return isKnown() ? greatest - estimate : 0;
  }

  public boolean isKnown() {
    return estimate != NONE;
  }

  public long samples() {
    return samples;
  }
}
