package dev.pawl.trace.feedback;

/**
 * The first difference of an output that a controller gave from the recorded one that lasted too long to be none.
 *
 * @param output index of the output
 * @param time nanoseconds, when the difference began
 * @param recorded engine value in the trace then; unknown where the trace said nothing of it yet
 * @param computed engine value that the controller gave
 */
public record Departure(int output, long time, long recorded, long computed) {}
