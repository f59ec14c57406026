package dev.pawl.report.model;

/**
 * A line of the program under test.
 *
 * @param file as the user gave it
 * @param line 1-based line
 * @param text what stands there, without its indent
 */
public record ProgramPlace(String file, int line, String text) {}
