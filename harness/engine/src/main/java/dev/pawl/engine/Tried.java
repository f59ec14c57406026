package dev.pawl.engine;

import java.util.OptionalLong;

/**
 * How often one of the trials that a rule states occurred in a trace.
 *
 * @param times how often
 * @param first when first, in nanoseconds; empty where it never did, or where the trigger is the trial
 */
public record Tried(long times, OptionalLong first) {}
