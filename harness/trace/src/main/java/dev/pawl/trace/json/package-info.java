/**
 * Traces as JSON Lines: one object in a line, with the keys {@code time} (or {@code time_ms} and the like),
 * {@code signal}, {@code value} and {@code quality}, or with several signals under {@code values}.
 * {@code {"time_ms": 5000, "end": true}} states when the trace ends. The only package of the module that may use
 * Jackson.
 */
package dev.pawl.trace.json;
