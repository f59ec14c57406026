package dev.pawl.trace.intake;

/**
 * How often a kind of problem occurred.
 *
 * @param kind the kind
 * @param count rows, or cells of a row, that had it; all were left out
 * @param firstLine line of the first
 */
public record ProblemCount(ProblemKind kind, long count, long firstLine) {}
