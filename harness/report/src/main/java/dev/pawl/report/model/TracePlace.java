package dev.pawl.report.model;

/**
 * Where an event stands.
 *
 * @param file the trace, as the user gave it
 * @param line 1-based line, 0 where there is none
 */
public record TracePlace(String file, long line) {}
