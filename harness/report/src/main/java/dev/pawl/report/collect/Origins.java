package dev.pawl.report.collect;

import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.model.DepartureResult;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.TracePlace;
import java.util.List;
import java.util.Optional;

/** Where what was judged came from. */
public interface Origins {

  /** A trace that no controller under test had a part in. */
  Origins RECORDED = new Origins() {};

  /** Where the event of a line stands; {@code trace} is what results call the whole source. */
  default TracePlace place(String trace, long line) {
    return new TracePlace(trace, Math.max(0, line));
  }

  /** The line of a program under test that the line of a signal's event stands for, where it stands for one. */
  default Optional<ProgramPlace> writer(int signal, long line) {
    return Optional.empty();
  }

  /** The differences of a controller's outputs from those recorded because of which a rule's signals are unknown. */
  default List<DepartureResult> departures(Rule rule) {
    return List.of();
  }

  /**
   * The outputs without recorded values because of which a rule rests on recorded signals only; none for another rule.
   */
  default List<String> unrecorded(Rule rule) {
    return List.of();
  }
}
