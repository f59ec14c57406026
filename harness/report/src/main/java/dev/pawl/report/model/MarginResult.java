package dev.pawl.report.model;

import dev.pawl.engine.MarginSpread;
import java.util.Optional;

/**
 * The smallest distance to breaking, in the unit a person compares in; negative where the rule broke.
 *
 * @param value in {@code unit}
 * @param unit seconds, or the unit that the compared signal is declared with; the empty string for a plain number
 * @param time nanoseconds, where it occurred
 * @param trigger nanoseconds, trigger of the obligation it occurred in
 * @param atMost whether the true margin may be smaller still
 * @param spread how near the single obligations came, with what is allowed in {@code unit}; empty where the rule states
 *     nothing that measures it
 */
public record MarginResult(double value, String unit, long time, long trigger, boolean atMost,
    Optional<MarginSpread> spread) {

  /** One of which nothing more is known. */
  public MarginResult(double value, String unit, long time, long trigger, boolean atMost) {
    this(value, unit, time, trigger, atMost, Optional.empty());
  }

  /** The same among the obligations of more traces. */
  public MarginResult spreading(Optional<MarginSpread> ofAll) {
    return new MarginResult(value, unit, time, trigger, atMost, ofAll);
  }

  public boolean isTime() {
    return unit.equals("s");
  }
}
