package dev.pawl.run.stress;

import dev.pawl.plant.scenario.Act;
import dev.pawl.plant.scenario.Doing;
import dev.pawl.plant.scenario.Fault;
import dev.pawl.plant.scenario.Scenario.Timed;
import java.util.ArrayList;
import java.util.List;

/**
 * A fault that can be put into a run.
 *
 * @param kind what kind of fault it is, for counting
 * @param subject what fails
 * @param people whether nothing fails, but people do what they should not
 * @param amounts how much it can fail; one that says nothing where there is no more or less of it
 * @param spans seconds for which it can last, the usual first; infinite to the end
 */
public record Candidate(String kind, String subject, boolean people, Form form, List<Double> amounts,
    List<Double> spans) {

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

    /** People do an act out of turn, and one hand of theirs is late, or does not come where it is late for ever. */
    record Clumsy(Act act, int late) implements Form {}

    /** The controller is without power. */
    record Unpowered(boolean warm) implements Form {}
  }

  /** What is done from a time on, and what ends it where it does not end by itself. */
  List<Timed> timed(double at, double amount, double span) {
    List<Timed> timed = new ArrayList<>();
    if (form instanceof Form.Held held) {
      timed.add(new Timed(at, new Doing.Hold(held.signal(), held.value(), span)));
    } else if (form instanceof Form.Clumsy clumsy) {
      for (Act.Step step : clumsy.act().steps()) {
        boolean late = step.signal() == clumsy.late();
        double from = at + step.from() - Math.min(0, clumsy.act().begins());
        if (Double.isInfinite(amount)) {
          if (!late) {
            timed.add(new Timed(from, new Doing.Hold(step.signal(), step.value(), step.to() - step.from())));
          }
          continue;
        }
        // Whoever is not late waits for who is.
        double lasts = step.to() - step.from() + (late ? 0 : amount);
        timed.add(new Timed(late ? from + amount : from, new Doing.Hold(step.signal(), step.value(), lasts)));
      }
    } else if (form instanceof Form.Unpowered unpowered) {
      timed.add(new Timed(at, new Doing.Cut(span, unpowered.warm())));
    } else {
      timed.add(new Timed(at, changes(amount, true)));
      if (!Double.isInfinite(span)) {
        timed.add(new Timed(at + span, changes(0, false)));
      }
    }
    return timed;
  }

  private Doing changes(double amount, boolean begins) {
    return form instanceof Form.Failing failing ? new Doing.Fail(failing.device(), failing.fault(), amount, begins)
        : new Doing.Swap(((Form.Swapped) form).signal(), ((Form.Swapped) form).other(), begins);
  }
}
