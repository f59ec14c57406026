package dev.pawl.logic;

import dev.pawl.grammar.logic.model.Task;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * When scans happen. All times in nanoseconds. The first scan is at the time of the first event; scan k is due
 * {@code k * period} later, and so is a run of a task by its interval.
 *
 * @param period time from scan to scan, at least 1, of programs that no task with an interval of its own runs
 * @param pace how exactly that is kept
 * @param paces the same of single tasks, by their path in upper case
 * @param seed what the random times and overruns are drawn from
 * @param onError what happens after a run-time error
 * @param outages power cuts, in order of time
 */
public record ScanOptions(long period, Pace pace, Map<String, Pace> paces, long seed, OnError onError,
    List<Outage> outages) {

  public static final ScanOptions DEFAULT = every(10_000_000L);

  /**
   * How exactly the times of scans are kept.
   *
   * @param jitter a scan starts late by a random time below this; less than the period; 0 for none
   * @param overrunChance probability that a scan runs long, 0 to 1
   * @param overrun how long a scan that runs long takes; scans that fall due meanwhile are skipped, as on a controller
   *     that cannot catch up
   */
  public record Pace(long jitter, double overrunChance, long overrun) {

    public static final Pace EXACT = new Pace(0, 0, 0);

    public Pace {
      require(jitter >= 0, "a jitter cannot be " + jitter + " ns");
      require(overrunChance >= 0 && overrunChance <= 1, "the chance of an overrun goes from 0 to 1, not "
          + overrunChance);
      require(overrun >= 0, "an overrun cannot last " + overrun + " ns");
    }

    /** How late a run can be. */
    long latest() {
      return jitter + (overrunChance > 0 ? overrun : 0);
    }
  }

  public ScanOptions {
    paces = Map.copyOf(paces);
    outages = List.copyOf(outages);
    require(period >= 1, "the scan period must be at least 1 ns, not " + period);
    require(pace.jitter() < period, "the jitter must be at least 0 and less than the period, not " + pace.jitter());
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
    return new ScanOptions(period, Pace.EXACT, Map.of(), 1, OnError.STOP, List.of());
  }

  /** Nanoseconds from one run of a task to the next at most; of one that only an edge starts, how late it can be. */
  public long longest(Task task) {
    return (task.periodic() ? period(task) : 0) + pace(task).latest();
  }

  /** Nanoseconds from one run of the fastest task to the next: so often a ride around a program moves. */
  public long shortest(List<Task> tasks) {
    return tasks.stream().mapToLong(this::period).min().orElse(period);
  }

  long period(Task task) {
    return task.interval().orElse(period);
  }

  /** How exactly a task keeps its times: its own pace, else that of all; the jitter is less than its period. */
  Pace pace(Task task) {
    Pace own = paces.getOrDefault(task.path().toUpperCase(Locale.ROOT), pace);
    long most = task.periodic() ? period(task) - 1 : Long.MAX_VALUE;
    return own.jitter() <= most ? own : new Pace(most, own.overrunChance(), own.overrun());
  }

  public ScanOptions withOutages(List<Outage> cuts) {
    return new ScanOptions(period, pace, paces, seed, onError, cuts);
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
