package dev.pawl.run.stress;

import dev.pawl.plant.scenario.Doing;
import dev.pawl.plant.scenario.Fault;
import java.util.List;
import java.util.Optional;

/**
 * A fault that can be put into a run.
 *
 * @param kind what kind of fault it is, for counting
 * @param subject what fails
 * @param amounts how much it can fail; one that says nothing where there is no more or less of it
 * @param spans seconds for which it can last, the usual first; infinite to the end
 */
public record Candidate(String kind, String subject, Form form, List<Double> amounts, List<Double> spans) {

  public Candidate {
    amounts = List.copyOf(amounts);
    spans = List.copyOf(spans);
  }

  /** What it does to the ride, its wires or its controller. */
  sealed interface Form {

    /** An input shows a value whatever is so. */
    record Held(int signal, double value) implements Form {}

    /** Something fails. */
    record Failing(String device, Fault fault) implements Form {}

    /** Wires are swapped. */
    record Swapped(int signal, int other) implements Form {}

    /** The controller is without power. */
    record Unpowered(boolean warm) implements Form {}
  }

  Doing begins(double amount, double span) {
    if (form instanceof Form.Held held) {
      return new Doing.Hold(held.signal(), held.value(), span);
    } else if (form instanceof Form.Failing failing) {
      return new Doing.Fail(failing.device(), failing.fault(), amount, true);
    } else if (form instanceof Form.Swapped swapped) {
      return new Doing.Swap(swapped.signal(), swapped.other(), true);
    }
    return new Doing.Cut(span, ((Form.Unpowered) form).warm());
  }

  /** What ends it, where it does not end by itself. */
  Optional<Doing> ends() {
    if (form instanceof Form.Failing failing) {
      return Optional.of(new Doing.Fail(failing.device(), failing.fault(), 0, false));
    }
    return form instanceof Form.Swapped swapped ? Optional.of(new Doing.Swap(swapped.signal(), swapped.other(), false))
        : Optional.empty();
  }
}
