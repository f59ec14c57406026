package dev.pawl.engine.graph;

/**
 * Arithmetic of moments: moment 2t is the nanosecond t, moment 2t+1 the open interval after it. Sums saturate, so that
 * a window longer than all of time never ends instead of having ended.
 */
public final class Moments {

  /** Before every moment of every trace. */
  public static final long NEVER = Long.MIN_VALUE;

  /** After every moment of every trace. */
  public static final long FOREVER = Long.MAX_VALUE;

  private Moments() {}

  public static long of(long nanoseconds) {
    return nanoseconds << 1;
  }

  public static long nanoseconds(long moment) {
    return moment >> 1;
  }

  public static boolean isJustAfter(long moment) {
    return (moment & 1) != 0;
  }

  /** {@code moment} and {@code span}, never less than {@code moment}. {@link #NEVER} stays never. */
  public static long later(long moment, long span) {
    if (moment == NEVER) {
      return NEVER;
    }
    long sum = moment + span;
    return sum < moment ? FOREVER : sum;
  }

  /** The number of moments that a duration spans. */
  public static long span(long nanoseconds) {
    return nanoseconds > Long.MAX_VALUE / 4 ? Long.MAX_VALUE / 2 : nanoseconds << 1;
  }
}
