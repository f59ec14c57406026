package dev.pawl.engine;

/**
 * The smallest distance to breaking over all obligations of a rule; negative where it broke.
 *
 * @param value seconds, or the compared quantity in SI base units
 * @param unit SI unit of {@code value}; {@code s} for times, the empty string for plain numbers
 * @param time nanoseconds, where it occurred
 * @param trigger nanoseconds, the trigger of the obligation it occurred in
 * @param atMost whether the true margin may be smaller still: the response had not come when the trace ended
 */
public record Margin(double value, String unit, long time, long trigger, boolean atMost) {}
