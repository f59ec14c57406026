package dev.pawl.mqtt.page;

import dev.pawl.engine.EventSink;
import java.util.Arrays;

/** What each signal is now and since when, as the judge is told: passes all on. */
final class PresentValues implements EventSink {

  private static final long NEVER = Long.MIN_VALUE;

  private final long[] values;
  private final long[] since;
  private EventSink next;

  PresentValues(int signals) {
    values = new long[signals];
    Arrays.fill(values, EventSink.UNKNOWN);
    since = new long[signals];
    Arrays.fill(since, NEVER);
  }

  PresentValues before(EventSink judge) {
    next = judge;
    return this;
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (values[signal] != value) {
      values[signal] = value;
      since[signal] = time;
    }
    next.event(time, signal, value, line);
  }

  @Override
  public void advanceTo(long time) {
    next.advanceTo(time);
  }

  long of(int signal) {
    return values[signal];
  }

  boolean isUnknown(int signal) {
    return values[signal] == EventSink.UNKNOWN;
  }

  /** Whether it ever had a value, or was told to be unknown. */
  boolean hasBegun(int signal) {
    return since[signal] != NEVER;
  }

  /** Since when it is so, in nanoseconds. */
  long since(int signal) {
    return since[signal];
  }
}
