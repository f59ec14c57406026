package dev.pawl.logic;

import java.util.List;

/**
 * How a program fared over one trace.
 *
 * @param scans scans that ran
 * @param overruns scans that ran long
 * @param skipped scans that fell due during an overrun, an outage or after a stop
 * @param errorCount run-time errors
 * @param errors the first of them
 * @param replaced events of the trace that were left out because the program itself gives that signal
 * @param unknownInputs events with an unknown value for an input; the program went on with the value before
 * @param tasks the same scans by task, the most urgent first
 * @param missed states of inputs that no run saw, since they were over before the next began
 */
public record LogicOutcome(long scans, long overruns, long skipped, long errorCount, List<LogicError> errors,
    long replaced, long unknownInputs, List<TaskRuns> tasks,
    List<Missed> missed) {

  public LogicOutcome {
    errors = List.copyOf(errors);
    tasks = List.copyOf(tasks);
    missed = List.copyOf(missed);
  }

  /**
   * How a task fared.
   *
   * @param name its path
   * @param runs how often it ran
   * @param overruns runs that took long
   * @param skipped runs that fell due during a long run, an outage or after a stop
   */
  public record TaskRuns(String name, long runs, long overruns, long skipped) {}

  /**
   * States of an input, such as a short pulse, that began and ended between two runs.
   *
   * @param signal its index
   * @param count how many
   * @param first nanoseconds, when the first began
   */
  public record Missed(int signal, long count, long first) {}
}
