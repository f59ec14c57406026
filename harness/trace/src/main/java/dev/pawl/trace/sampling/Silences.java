package dev.pawl.trace.sampling;

import dev.pawl.engine.EventSink;
import java.util.Arrays;

/**
 * Passes events on, and makes a signal unknown of which nothing has been heard for longer than it may be silent, until
 * its next row.
 */
public final class Silences implements EventSink {

  private static final long NEVER = Long.MIN_VALUE;

  private final EventSink next;
  private final long[] limits;
  private final long[] heard;
  private final long[] lines;
  private final boolean[] silent;
  private final long[] counts;
  private final long[] longest;
  private final long[] longestFrom;
  /** No signal falls silent up to this time. */
  private long soonest = Long.MAX_VALUE;

  /**
   * Silences.
   *
   * @param limits by signal index, nanoseconds after the last row up to which it is believed; 0 for a signal that may
   *     be silent for ever
   */
  public Silences(long[] limits, EventSink next) {
    this.next = next;
    this.limits = limits.clone();
    this.heard = new long[limits.length];
    Arrays.fill(heard, NEVER);
    this.lines = new long[limits.length];
    this.silent = new boolean[limits.length];
    this.counts = new long[limits.length];
    this.longest = new long[limits.length];
    this.longestFrom = new long[limits.length];
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (time > soonest) {
      fallSilent(time);
    }
    if (limits[signal] > 0) {
      endSilence(time, signal);
      heard[signal] = time;
      lines[signal] = line;
      soonest = Math.min(soonest, time + limits[signal]);
    }
    next.event(time, signal, value, line);
  }

  @Override
  public void advanceTo(long time) {
    if (time > soonest) {
      fallSilent(time);
    }
    next.advanceTo(time);
  }

  /** Makes unknown what has been silent for too long, one after the other. */
  private void fallSilent(long time) {
    int signal = firstToFall();
    while (signal >= 0 && heard[signal] + limits[signal] < time) {
      silent[signal] = true;
      counts[signal]++;
      next.event(heard[signal] + limits[signal] + 1, signal, UNKNOWN, lines[signal]);
      signal = firstToFall();
    }
    soonest = signal < 0 ? Long.MAX_VALUE : heard[signal] + limits[signal];
  }

  private int firstToFall() {
    int first = -1;
    for (int signal = 0; signal < limits.length; signal++) {
      boolean believed = heard[signal] != NEVER && !silent[signal];
      if (believed && (first < 0 || heard[signal] + limits[signal] < heard[first] + limits[first])) {
        first = signal;
      }
    }
    return first;
  }

  private void endSilence(long time, int signal) {
    if (silent[signal] && time - heard[signal] > longest[signal]) {
      longest[signal] = time - heard[signal];
      longestFrom[signal] = heard[signal];
    }
    silent[signal] = false;
  }

  /** Ends the trace; a silence that still lasts is as long as it has lasted. */
  public void finish(long end) {
    advanceTo(end);
    for (int signal = 0; signal < limits.length; signal++) {
      if (silent[signal]) {
        endSilence(end, signal);
      }
    }
  }

  /** How often a signal was silent for too long. */
  public long count(int signal) {
    return counts[signal];
  }

  /** Nanoseconds, its longest silence that was too long. */
  public long longest(int signal) {
    return longest[signal];
  }

  /** When that began: the time of its last row before it. */
  public long longestFrom(int signal) {
    return longestFrom[signal];
  }
}
