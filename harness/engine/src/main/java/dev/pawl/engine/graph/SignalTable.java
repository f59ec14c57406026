package dev.pawl.engine.graph;

import dev.pawl.engine.EventSink;
import java.util.Arrays;

/** The present value of every signal, and when and on which line of the trace it last changed. */
public final class SignalTable {

  /** Engine values, as in {@link EventSink#event}. */
  public final long[] value;

  /** Nanoseconds at which the signal last took another value; {@link Moments#NEVER} for one that has been unknown all along. */
  public final long[] changedAt;

  /** Lines of the events that did that; 0 before any. */
  public final long[] changedLine;

  public SignalTable(int signals) {
    value = new long[signals];
    changedAt = new long[signals];
    changedLine = new long[signals];
    Arrays.fill(value, EventSink.UNKNOWN);
    Arrays.fill(changedAt, Moments.NEVER);
  }
}
