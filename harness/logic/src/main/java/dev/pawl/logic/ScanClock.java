package dev.pawl.logic;

import java.util.SplittableRandom;

/** The times of scans: a steady grid, with random lateness and overruns drawn from a seed. */
final class ScanClock {

  private final ScanOptions options;
  private final SplittableRandom random;
  private long slot;
  private long start;
  private long overruns;
  private long skipped;

  ScanClock(ScanOptions options) {
    this.options = options;
    this.random = new SplittableRandom(options.seed());
  }

  /** Sets the time of the first scan. */
  long start(long time) {
    start = time;
    return time;
  }

  /** The time of the scan after the one at {@code time}. */
  long next(long time) {
    boolean late = options.overrunChance() > 0 && random.nextDouble() < options.overrunChance();
    long end = time + (late ? options.overrun() : 0);
    overruns += late ? 1 : 0;
    return from(end);
  }

  /** The time of the first scan that is due at or after {@code time}, and after all scans so far. */
  long from(long time) {
    slot++;
    long due = start + slot * options.period();
    if (due < time) {
      long behind = (time - due + options.period() - 1) / options.period();
      skipped += behind;
      slot += behind;
      due += behind * options.period();
    }
    return due + (options.jitter() > 0 ? random.nextLong(options.jitter()) : 0);
  }

  long overruns() {
    return overruns;
  }

  long skipped() {
    return skipped;
  }
}
