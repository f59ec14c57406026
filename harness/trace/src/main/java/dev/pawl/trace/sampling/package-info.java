/**
 * How often the signals of a trace were looked at: stated in bindings, or measured from their rows; and what becomes of
 * a signal of which nothing is heard for too long. Uses the engine's contract only.
 */
package dev.pawl.trace.sampling;
