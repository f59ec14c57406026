package dev.pawl.run;

import dev.pawl.report.model.Input;
import dev.pawl.report.model.TraceResult;
import java.util.Optional;

/** Results of an earlier run of the same session that did not come to its end. Asked by several threads at once. */
public interface EarlierResults {

  /** The result of a trace that is as it was. */
  Optional<TraceResult> find(Input trace);

  /** Keeps the result of a trace for a later run. */
  void add(Input trace, TraceResult result);
}
