package dev.pawl.report.model;

import dev.pawl.engine.Tried;
import java.util.List;
import java.util.OptionalLong;

/**
 * How much a trace let a rule see.
 *
 * @param watched nanoseconds in which an {@code always} or {@code never} applied; empty for a {@code when}
 * @param unseen names of the signals it reads that never had a value: with any, the rule never began
 * @param still names of the signals it reads that had only one value
 * @param tried what became of each trial that the rule states, in their order
 * @param unconfirmed how many of the met obligations rest on counts of trains that a later passage may still prove
 *     wrong
 * @param wrongCounts the counts of zones it reads that were found wrong, one for each zone
 * @param departures the differences from recorded outputs because of which signals it reads are unknown
 * @param unrecorded outputs without recorded values because of which it rests on recorded signals only, so that nothing
 *     is counted of it
 */
public record Seen(OptionalLong watched, List<String> unseen, List<String> still, List<Tried> tried, long unconfirmed,
    List<WrongCount> wrongCounts, List<DepartureResult> departures, List<String> unrecorded) {

  public Seen {
    unseen = List.copyOf(unseen);
    still = List.copyOf(still);
    tried = List.copyOf(tried);
    wrongCounts = List.copyOf(wrongCounts);
    departures = List.copyOf(departures);
    unrecorded = List.copyOf(unrecorded);
  }

  /** Of a trace that no controller under test had a part in. */
  public Seen(OptionalLong watched, List<String> unseen, List<String> still, List<Tried> tried, long unconfirmed,
      List<WrongCount> wrongCounts) {
    this(watched, unseen, still, tried, unconfirmed, wrongCounts, List.of(), List.of());
  }
}
