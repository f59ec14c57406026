package dev.pawl.report.model;

/**
 * The smallest distance to breaking, in the unit a person compares in; negative where the rule broke.
 *
 * @param value in {@code unit}
 * @param unit seconds, or the unit that the compared signal is declared with; the empty string for a plain number
 * @param time nanoseconds, where it occurred
 * @param trigger nanoseconds, trigger of the obligation it occurred in
 * @param atMost whether the true margin may be smaller still
 */
public record MarginResult(double value, String unit, long time, long trigger, boolean atMost) {

  public boolean isTime() {
    return unit.equals("s");
  }
}
