package dev.pawl.trace;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.trace.intake.ProblemCount;
import java.util.List;
import java.util.OptionalLong;

/**
 * What reading a trace came to.
 *
 * @param counts how much there was
 * @param times from when to when it goes
 * @param silent indices of signals that had no event
 * @param problems how often each kind of problem occurred
 * @param diagnostics the first problems, in words
 * @param outcome how the reading ended
 */
public record TraceSummary(Counts counts, Times times, List<Integer> silent, List<ProblemCount> problems,
    List<Diagnostic> diagnostics, Outcome outcome) {

  /**
   * How much there was.
   *
   * @param lines lines read
   * @param bytes bytes read, before decompression
   * @param events events of signals, those not sent on included
   * @param sent events sent on
   */
  public record Counts(long lines, long bytes, long events, long sent) {}

  /**
   * From when to when a trace goes, in nanoseconds.
   *
   * @param calendar whether times count from 1970 (UTC) rather than from a start of the trace's own
   * @param first time of the first event; empty if there is none
   * @param last time of the last event or row
   * @param statedEnd where the trace says that it ends
   * @param finer how many times stated something finer than a nanosecond, which was cut off
   */
  public record Times(boolean calendar, OptionalLong first, OptionalLong last, OptionalLong statedEnd, long finer) {

    /** Where judging ends: the stated end, else the last event. */
    public OptionalLong end() {
      return statedEnd.isPresent() ? statedEnd : last;
    }
  }

  public TraceSummary {
    silent = List.copyOf(silent);
    problems = List.copyOf(problems);
    diagnostics = List.copyOf(diagnostics);
  }

  /** How a reading ended. */
  public enum Outcome {
    /** All read, and what was sent on can be judged. */
    COMPLETE,
    /** Ended on request; what was sent on can be judged as part of the trace. */
    INTERRUPTED,
    /** Not usable: unreadable, with problems where none are allowed, or with nothing left when they are left out. */
    REJECTED
  }

  public boolean isRejected() {
    return outcome == Outcome.REJECTED;
  }

  public long problemTotal() {
    return problems.stream().mapToLong(ProblemCount::count).sum();
  }

  /**
   * The counts in one line, such as {@code 3 problems: 2 x row out of order (first in line 7), 1 x unbound tag (first
   * in line 9)}.
   */
  public String problemLine() {
    StringBuilder text = new StringBuilder();
    text.append(problemTotal()).append(problemTotal() == 1 ? " problem" : " problems");
    String lead = ": ";
    for (ProblemCount problem : problems) {
      text.append(lead).append(problem.count()).append(" x ").append(problem.kind().label());
      text.append(" (first in line ").append(problem.firstLine()).append(')');
      lead = ", ";
    }
    return text.toString();
  }
}
