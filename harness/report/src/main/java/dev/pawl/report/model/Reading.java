package dev.pawl.report.model;

import java.util.List;

/**
 * How the reading of a trace went: nothing that was left out is left out in silence.
 *
 * @param counters what was counted, in a fixed order; only what is not zero
 * @param problems the first problems, each with its place
 * @param problemCount how many there were in all
 * @param failure why reading stopped early, or the empty string
 */
public record Reading(List<Counter> counters, List<Problem> problems, long problemCount, String failure) {

  public static final Reading CLEAN = new Reading(List.of(), List.of(), 0, "");

  public Reading {
    counters = List.copyOf(counters);
    problems = List.copyOf(problems);
  }

  /**
   * One thing counted.
   *
   * @param label what, in plain words, such as {@code rows out of order}
   */
  public record Counter(String label, long count) {}

  /**
   * One thing wrong with a trace.
   *
   * @param line 1-based line, 0 where it has none
   * @param message what is wrong and what was done about it
   */
  public record Problem(long line, String message) {}
}
