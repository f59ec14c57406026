package dev.pawl.trace.sampling;

import java.util.Map;
import java.util.Set;

/**
 * What bindings state about how signals were looked at, by index of the signal.
 *
 * @param every nanoseconds from one look to the next at most
 * @param changesOnly those of them of which a look is written only where the value has changed, so that no row is
 *     missing where none comes
 * @param onChange signals that were logged when they changed, whatever their rows look like
 * @param silence nanoseconds after the last row from which on a signal is unknown
 */
public record StatedSampling(Map<Integer, Long> every, Set<Integer> changesOnly, Set<Integer> onChange,
    Map<Integer, Long> silence) {

  public static final StatedSampling NONE = new StatedSampling(Map.of(), Set.of(), Set.of(), Map.of());

  public StatedSampling {
    every = Map.copyOf(every);
    changesOnly = Set.copyOf(changesOnly);
    onChange = Set.copyOf(onChange);
    silence = Map.copyOf(silence);
  }

  /** Whether it is stated how a signal was looked at, so that its rows need not show it. */
  public boolean says(int signal) {
    return every.containsKey(signal) || onChange.contains(signal);
  }

  /**
   * Periods by signal, those that were measured added to those that are stated; 0 for a signal that was logged when it
   * changed.
   */
  public long[] periods(int signals, long[] measured) {
    long[] periods = new long[signals];
    for (int signal = 0; signal < signals; signal++) {
      periods[signal] = says(signal) ? every.getOrDefault(signal, 0L) : measured[signal];
    }
    return periods;
  }

  /**
   * How long each signal is believed after its last row, where signals have such periods; 0 for one that may be silent
   * for ever.
   */
  public long[] limits(long[] periods) {
    long[] limits = periods.clone();
    changesOnly.forEach(signal -> limits[signal] = 0);
    silence.forEach((signal, limit) -> limits[signal] = limits[signal] == 0 ? limit : Math.min(limits[signal], limit));
    return limits;
  }
}
