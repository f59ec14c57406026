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
 */
public record LogicOutcome(long scans, long overruns, long skipped, long errorCount, List<LogicError> errors,
    long replaced, long unknownInputs) {

  public LogicOutcome {
    errors = List.copyOf(errors);
  }
}
