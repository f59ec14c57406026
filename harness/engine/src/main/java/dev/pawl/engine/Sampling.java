package dev.pawl.engine;

import java.util.Collection;

/**
 * How often each signal of a trace was looked at. A change of one that was sampled happened at any time since it was
 * looked at before.
 */
public final class Sampling {

  /** Every signal was logged when it changed. */
  public static final Sampling NONE = new Sampling(new long[0]);

  /** Nanoseconds; trains take longer than that through a zone. */
  private static final long FIRST_VALUES_WITHIN = 5_000_000_000L;

  private final long[] periods;
  private final long firstValuesWithin;

  private Sampling(long[] periods) {
    this(periods, FIRST_VALUES_WITHIN);
  }

  private Sampling(long[] periods, long firstValuesWithin) {
    this.periods = periods;
    this.firstValuesWithin = firstValuesWithin;
  }

  /**
   * A trace's sampling.
   *
   * @param periods nanoseconds by index of the signal, the longest there was; 0 for one that was logged when it changed
   */
  public static Sampling of(long... periods) {
    return new Sampling(periods.clone());
  }

  /** The same where first values may come within other nanoseconds. */
  public Sampling withFirstValues(long within) {
    return new Sampling(periods, within);
  }

  /**
   * Nanoseconds after a trace's first instant within which a signal's first value still tells what it was at that
   * instant.
   */
  public long firstValuesWithin() {
    return firstValuesWithin;
  }

  /** Nanoseconds; 0 for a signal that was logged when it changed. */
  public long period(int signal) {
    return signal < periods.length ? periods[signal] : 0;
  }

  /** The longest period of some signals; 0 if none of them was sampled. */
  public long longest(Collection<Integer> signals) {
    return signals.stream().mapToLong(this::period).max().orElse(0);
  }
}
