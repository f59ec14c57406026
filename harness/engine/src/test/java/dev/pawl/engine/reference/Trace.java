package dev.pawl.engine.reference;

import dev.pawl.engine.Sampling;
import java.util.List;
import java.util.OptionalLong;

/**
 * A short trace held in memory.
 *
 * @param events in order of time, at least one
 * @param statedEnd nanoseconds; empty where the trace ends at its last event
 * @param sampling how often each signal was looked at
 */
public record Trace(List<TraceEvent> events, OptionalLong statedEnd, Sampling sampling) {

  public Trace {
    events = List.copyOf(events);
  }

  /** A trace whose signals were logged when they changed. */
  public Trace(List<TraceEvent> events, OptionalLong statedEnd) {
    this(events, statedEnd, Sampling.NONE);
  }

  public long start() {
    return events.get(0).time();
  }

  public long end() {
    return statedEnd.orElse(events.get(events.size() - 1).time());
  }
}
