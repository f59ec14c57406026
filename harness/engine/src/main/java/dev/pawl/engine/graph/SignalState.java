package dev.pawl.engine.graph;

import dev.pawl.engine.EventSink;
import java.util.List;

/**
 * The present value of a signal, when and on which line of the trace it last changed, and the node that shows it to
 * others.
 */
public final class SignalState {

  /** Index of the signal in the rule book. */
  public final int index;

  /** An engine value, as in {@link EventSink#event}. */
  public long value = EventSink.UNKNOWN;

  /**
   * Nanoseconds at which the signal last took another value; {@link Moments#NEVER} for one that has been unknown all
   * along.
   */
  public long changedAt = Moments.NEVER;

  /** Line of the event that did that; 0 before any. */
  public long changedLine;

  /** Null where nothing depends on the signal. */
  public Node node;

  public SignalState(int index) {
    this.index = index;
  }

  /** The last moment at which one of some signals changed; {@link Moments#NEVER} for none. */
  public static long lastChange(List<SignalState> signals) {
    long last = Moments.NEVER;
    for (int i = 0; i < signals.size(); i++) {
      long changed = signals.get(i).changedAt;
      last = changed == Moments.NEVER ? last : Math.max(last, Moments.of(changed));
    }
    return last;
  }
}
