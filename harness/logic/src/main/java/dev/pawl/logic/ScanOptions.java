package dev.pawl.logic;

import java.util.List;

/**
 * When scans happen. All times in nanoseconds. The first scan is at the time of the first event; scan k is due
 * {@code k * period} later.
 *
 * @param period time from scan to scan, at least 1
 * @param jitter a scan starts late by a random time below this; less than the period; 0 for none
 * @param overrunChance probability that a scan runs long, 0 to 1
 * @param overrun how long a scan that runs long takes; scans that fall due meanwhile are skipped, as on a controller
 *     that cannot catch up
 * @param seed what the random times and overruns are drawn from
 * @param onError what happens after a run-time error
 * @param outages power cuts, in order of time
 */
public record ScanOptions(long period, long jitter, double overrunChance, long overrun, long seed, OnError onError,
    List<Outage> outages) {

  public static final ScanOptions DEFAULT = every(10_000_000L);

  public ScanOptions {
    outages = List.copyOf(outages);
    require(period >= 1, "the scan period must be at least 1 ns, not " + period);
    require(jitter >= 0 && jitter < period, "the jitter must be at least 0 and less than the period, not " + jitter);
    require(overrunChance >= 0 && overrunChance <= 1, "the chance of an overrun goes from 0 to 1, not "
        + overrunChance);
    require(overrun >= 0, "an overrun cannot last " + overrun + " ns");
    for (int i = 1; i < outages.size(); i++) {
      require(outages.get(i).start() >= outages.get(i - 1).end(),
          "outages must be in order of time and must not overlap");
    }
  }

  private static void require(boolean condition, String message) {
    if (!condition) {
      throw new IllegalArgumentException(message);
    }
  }

  /** Scans at a steady period. */
  public static ScanOptions every(long period) {
    return new ScanOptions(period, 0, 0, 0, 1, OnError.STOP, List.of());
  }

  /** Nanoseconds from one scan to the next at most. */
  public long longest() {
    return period + jitter + (overrunChance > 0 ? overrun : 0);
  }

  public ScanOptions withJitter(long jitter, long seed) {
    return new ScanOptions(period, jitter, overrunChance, overrun, seed, onError, outages);
  }

  public ScanOptions withOverruns(double chance, long length, long seed) {
    return new ScanOptions(period, jitter, chance, length, seed, onError, outages);
  }

  public ScanOptions withOnError(OnError reaction) {
    return new ScanOptions(period, jitter, overrunChance, overrun, seed, reaction, outages);
  }

  public ScanOptions withOutages(List<Outage> cuts) {
    return new ScanOptions(period, jitter, overrunChance, overrun, seed, onError, cuts);
  }

  /** What happens after a run-time error. */
  public enum OnError {
    /** The controller stops: its outputs go to their first values and stay there. */
    STOP,
    /** The rest of the scan is skipped; the next scan runs as if nothing had happened. */
    NEXT_SCAN
  }

  /**
   * A time without power: no scans run, and outputs are at their first values.
   *
   * @param start nanoseconds, when the power fails
   * @param end nanoseconds, when it is back
   * @param restart how the program starts again
   */
  public record Outage(long start, long end, Restart restart) {
    public Outage {
      require(end > start, "an outage must end after it starts");
    }
  }

  /** How a program starts again. */
  public enum Restart {
    /** RETAIN variables keep their values. */
    WARM,
    /** Every variable gets its first value. */
    COLD
  }
}
