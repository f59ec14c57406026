package dev.pawl.run.live;

import dev.pawl.engine.EventSink;
import java.util.Map;
import java.util.TreeMap;

/**
 * Passes the events of a live feed on, and gives signals of which nothing has come the values that they are stated to
 * have. Not at once: what the broker had kept comes first, and is no change of anything.
 */
final class LiveBeginning implements EventSink {

  /** Nanoseconds in which all comes that the broker had kept; flags that are known within 5 s keep a zone's count. */
  static final long SETTLING = 2_000_000_000L;

  private static final long NONE = Long.MIN_VALUE;

  private final Map<Integer, Long> unheard;
  private final EventSink next;
  private long from = NONE;

  /**
   * A beginning.
   *
   * @param values by signal index
   */
  LiveBeginning(Map<Integer, Long> values, EventSink next) {
    this.unheard = new TreeMap<>(values);
    this.next = next;
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (!unheard.isEmpty()) {
      settle(time);
      unheard.remove(signal);
    }
    next.event(time, signal, value, line);
  }

  @Override
  public void advanceTo(long time) {
    if (!unheard.isEmpty()) {
      settle(time);
    }
    next.advanceTo(time);
  }

  private void settle(long time) {
    if (from == NONE) {
      from = time;
    } else if (time > from + SETTLING) {
      unheard.forEach((signal, value) -> next.event(from + SETTLING, signal, value, 0));
      unheard.clear();
    }
  }
}
