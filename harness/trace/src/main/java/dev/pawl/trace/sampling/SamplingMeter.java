package dev.pawl.trace.sampling;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;

/**
 * Passes events on, and measures on the way which signals were looked at every now and then, and how fine the times
 * are. Allocates nothing for an event.
 */
public final class SamplingMeter implements EventSink {

  private static final long NONE = Long.MIN_VALUE;

  private final EventSink next;
  private final Rhythm[] rhythms;
  private final long finest;
  private long first = NONE;
  private long last = NONE;
  private long instants;
  private long grid;
  private boolean fine;

  /**
   * A meter.
   *
   * @param measured by signal index, whether its rows are to be measured
   * @param finest nanoseconds; times that are not all multiples of something coarser than this are fine enough
   */
  public SamplingMeter(RuleBook book, boolean[] measured, long finest, EventSink next) {
    this.next = next;
    this.finest = finest;
    this.rhythms = new Rhythm[measured.length];
    for (int signal = 0; signal < measured.length; signal++) {
      rhythms[signal] = measured[signal] ? new Rhythm(book.signals().get(signal).type().isNumber())
          : null;
    }
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    // Without a line of the trace it is a program's answer, or stated, which is no look at anything.
    if (rhythms[signal] != null && line > 0) {
      rhythms[signal].row(time, value);
    }
    if (!fine && time != last) {
      follow(time);
    }
    next.event(time, signal, value, line);
  }

  private void follow(long time) {
    if (first == NONE) {
      first = time;
    }
    last = time;
    instants++;
    long since = time - first;
    if (grid == 0 || since % grid != 0) {
      grid = greatestDivisor(grid, since);
      fine = grid != 0 && grid <= finest;
    }
  }

  private static long greatestDivisor(long one, long other) {
    return other == 0 ? one : greatestDivisor(other, one % other);
  }

  @Override
  public void advanceTo(long time) {
    next.advanceTo(time);
  }

  /**
   * By signal, the longest time between two looks in nanoseconds; 0 for one that was logged when it changed, or not
   * measured.
   */
  public long[] periods() {
    long[] periods = new long[rhythms.length];
    for (int signal = 0; signal < periods.length; signal++) {
      periods[signal] = rhythms[signal] == null ? 0 : rhythms[signal].period();
    }
    return periods;
  }

  /**
   * What all times are multiples of, nanoseconds from the first one on; 0 if they are fine enough, or too few to say.
   */
  public long coarseGrid() {
    return fine || instants < 100 ? 0 : grid;
  }

  /** How many instants there were, as long as times were not fine enough. */
  public long instants() {
    return instants;
  }
}
