package dev.pawl.logic;

import java.util.SplittableRandom;

/** The times at which a task runs: a steady grid, with random lateness and overruns drawn from a seed. */
final class ScanClock {

  private final long period;
  private final ScanOptions.Pace pace;
  private final SplittableRandom random;
  private long slot;
  private long start;
  private long overruns;
  private long skipped;

  ScanClock(long period, ScanOptions.Pace pace, long seed) {
    this.period = period;
    this.pace = pace;
    this.random = new SplittableRandom(seed);
  }

  /** Sets the time of the first run. */
  long start(long time) {
    start = time;
    return time;
  }

  /** When a run that begins at {@code time} is over. */
  long end(long time) {
    boolean late = pace.overrunChance() > 0 && random.nextDouble() < pace.overrunChance();
    overruns += late ? 1 : 0;
    return time + (late ? pace.overrun() : 0);
  }

  /** The time of the first run that is due at or after {@code time}, and after all runs so far. */
  long from(long time) {
    slot++;
    long due = start + slot * period;
    if (due < time) {
      long behind = (time - due + period - 1) / period;
      skipped += behind;
      slot += behind;
      due += behind * period;
    }
    return late(due);
  }

  /** That time, or as much later as this run is late. */
  long late(long time) {
    return time + (pace.jitter() > 0 ? random.nextLong(pace.jitter()) : 0);
  }

  void skip() {
    skipped++;
  }

  long overruns() {
    return overruns;
  }

  long skipped() {
    return skipped;
  }
}
