package dev.pawl.report.model;

import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.List;

/**
 * Everything that one run has to say.
 *
 * @param version version of the tool
 * @param created when it was made, as RFC 3339, or the empty string
 * @param partial whether the run was interrupted, so that it covers only a part of what was asked
 * @param ride name of the ride, or the empty string
 * @param inputs the files it rests on
 * @param traces one result per trace, in the order in which they were given
 * @param cautions what a reader has to bear in mind about this run, beyond the cautions that every report carries
 * @param book the rules that it judged by
 */
public record Report(String version, String created, boolean partial, String ride, List<Input> inputs,
    List<TraceResult> traces, List<String> cautions, RuleBook book) {

  public Report {
    cautions = List.copyOf(cautions);
    inputs = List.copyOf(inputs);
    traces = List.copyOf(traces);
  }

  /** How many rules, over all traces, have the verdict. */
  public long count(Verdict verdict) {
    long count = 0;
    for (TraceResult trace : traces) {
      count += trace.count(verdict);
    }
    return count;
  }

  /** How many traces could not be judged at all. */
  public long unjudged() {
    return traces.stream().filter(trace -> trace.rules().isEmpty()).count();
  }

  /** Whether at least one trace could not be read to its end. */
  public boolean hasFailure() {
    for (TraceResult trace : traces) {
      if (!trace.reading().failure().isEmpty()) {
        return true;
      }
    }
    return false;
  }
}
