package dev.pawl.engine;

import java.util.List;

/**
 * What one trace says about a whole rule book.
 *
 * @param start nanoseconds, first instant
 * @param end nanoseconds, last instant
 * @param events number of events taken
 * @param overwritten events whose signal got another value in the same instant, so that the later one counted
 * @param rules one outcome per rule, by index
 * @param zones one outcome per zone, by index
 * @param signals what was seen of each signal, by index
 */
public record TraceOutcome(long start, long end, long events, long overwritten, List<RuleOutcome> rules,
    List<ZoneOutcome> zones, List<Sight> signals) {

  public TraceOutcome {
    rules = List.copyOf(rules);
    zones = List.copyOf(zones);
    signals = List.copyOf(signals);
  }
}
