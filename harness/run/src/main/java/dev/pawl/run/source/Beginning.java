package dev.pawl.run.source;

import dev.pawl.engine.EventSink;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * Passes events on, and begins with what signals are stated to have been: those without a row at the first instant have
 * that value from then on.
 */
final class Beginning implements EventSink {

  /** An event of the first instant. */
  private record Held(int signal, long value, long line) {}

  private final Map<Integer, Long> values;
  private final EventSink next;
  private final List<Held> held = new ArrayList<>();
  private boolean begun;
  private long first;

  /**
   * A beginning.
   *
   * @param values by signal index
   */
  Beginning(Map<Integer, Long> values, EventSink next) {
    this.values = values;
    this.next = next;
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (!begun && (held.isEmpty() || time == first)) {
      first = time;
      held.add(new Held(signal, value, line));
      return;
    }
    begin();
    next.event(time, signal, value, line);
  }

  @Override
  public void advanceTo(long time) {
    if (!begun && held.isEmpty()) {
      first = time;
    }
    if (time > first || held.isEmpty()) {
      begin();
    }
    next.advanceTo(time);
  }

  /** Nothing more comes of the first instant. */
  void begin() {
    if (begun) {
      return;
    }
    begun = true;
    values.forEach((signal, value) -> {
      if (held.stream().noneMatch(event -> event.signal == signal)) {
        next.event(first, signal, value, 0);
      }
    });
    held.forEach(event -> next.event(first, event.signal, event.value, event.line));
  }
}
