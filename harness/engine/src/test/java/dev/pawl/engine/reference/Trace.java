package dev.pawl.engine.reference;

import java.util.List;
import java.util.OptionalLong;

/**
 * A short trace held in memory.
 *
 * @param events in order of time, at least one
 * @param statedEnd nanoseconds; empty where the trace ends at its last event
 */
public record Trace(List<TraceEvent> events, OptionalLong statedEnd) {

  public Trace {
    events = List.copyOf(events);
  }

  public long start() {
    return events.get(0).time();
  }

  public long end() {
    return statedEnd.orElse(events.get(events.size() - 1).time());
  }
}
