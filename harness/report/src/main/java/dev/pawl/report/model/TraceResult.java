package dev.pawl.report.model;

import dev.pawl.engine.Verdict;
import java.util.List;
import java.util.Optional;

/**
 * What one trace says.
 *
 * @param path the trace, as the user gave it
 * @param timeBase what its times are counted from
 * @param start nanoseconds, first instant
 * @param end nanoseconds, last instant
 * @param lines number of lines read
 * @param events number of events of signals
 * @param overwritten events that another one of the same signal and instant replaced
 * @param partial whether judging stopped before the end of the trace
 * @param reading how reading went
 * @param rules one result per rule, in the order of the rule book; empty where nothing could be judged
 * @param zones one result per zone, in the order of the rule book
 * @param truth what truly happened, where the ride was a model
 */
public record TraceResult(String path, TimeBase timeBase, long start, long end, long lines, long events,
    long overwritten,
    boolean partial, Reading reading, List<RuleResult> rules, List<ZoneResult> zones, Optional<Truth> truth) {

  public TraceResult {
    rules = List.copyOf(rules);
    zones = List.copyOf(zones);
  }

  /** What a recorded trace says: nobody knows the truth behind it. */
  public TraceResult(String path, TimeBase timeBase, long start, long end, long lines, long events, long overwritten,
      boolean partial, Reading reading, List<RuleResult> rules, List<ZoneResult> zones) {
    this(path, timeBase, start, end, lines, events, overwritten, partial, reading, rules, zones, Optional.empty());
  }

  /** The same with what truly happened. */
  public TraceResult withTruth(Truth known) {
    return new TraceResult(path, timeBase, start, end, lines, events, overwritten, partial, reading, rules, zones,
        Optional.of(known));
  }

  /** The same with other results of its rules. */
  public TraceResult withRules(List<RuleResult> others) {
    return new TraceResult(path, timeBase, start, end, lines, events, overwritten, partial, reading, others, zones,
        truth);
  }

  /** How many rules have the verdict. */
  public long count(Verdict verdict) {
    long count = 0;
    for (RuleResult rule : rules) {
      if (rule.verdict() == verdict) {
        count++;
      }
    }
    return count;
  }

  /** A trace of which nothing could be judged. */
  public static TraceResult unreadable(String path, Reading reading) {
    return new TraceResult(path, TimeBase.START, 0, 0, 0, 0, 0, true, reading, List.of(), List.of());
  }
}
