package dev.pawl.engine.reference;

/** One event of a test trace, with the engine's coding of values. */
public record TraceEvent(long time, int signal, long value) {}
