package dev.pawl.run.stress;

import dev.pawl.plant.scenario.Act;
import dev.pawl.plant.scenario.Doing;
import dev.pawl.plant.scenario.Fault;
import dev.pawl.plant.scenario.Scenario.Timed;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

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

    /** What is done from a time on, and what ends it where it does not end by itself. */
    List<Timed> timed(double at, double amount, double span);

    /** An input shows a value whatever is so. */
    record Held(int signal, double value) implements Form {
      @Override
      public List<Timed> timed(double at, double amount, double span) {
        return List.of(new Timed(at, new Doing.Hold(signal, value, span)));
      }
    }

    /** Something fails. */
    record Failing(String device, Fault fault) implements Form {
      @Override
      public List<Timed> timed(double at, double amount, double span) {
        return mended(new Doing.Fail(device, fault, amount, true), new Doing.Fail(device, fault, 0, false), at, span);
      }
    }

    /** Wires are swapped. */
    record Swapped(int signal, int other) implements Form {
      @Override
      public List<Timed> timed(double at, double amount, double span) {
        return mended(new Doing.Swap(signal, other, true), new Doing.Swap(signal, other, false), at, span);
      }
    }

    /** People do an act out of turn, and one hand of theirs is late, or does not come where it is late for ever. */
    record Clumsy(Act act, int late) implements Form {
      @Override
      public List<Timed> timed(double at, double amount, double span) {
        List<Timed> timed = new ArrayList<>();
        for (Act.Step step : act.steps()) {
          boolean late = step.signal() == this.late;
          double from = at + step.from() - Math.min(0, act.begins());
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
        return timed;
      }
    }

    /** The controller is without power. */
    record Unpowered(boolean warm) implements Form {
      @Override
      public List<Timed> timed(double at, double amount, double span) {
        return List.of(new Timed(at, new Doing.Cut(span, warm)));
      }
    }

    private static List<Timed> mended(Doing begins, Doing ends, double at, double span) {
      return Stream.of(new Timed(at, begins), new Timed(at + span, ends)).filter(it -> Double.isFinite(it.at()))
          .toList();
    }
  }

  /** What is done from a time on, and what ends it where it does not end by itself. */
  List<Timed> timed(double at, double amount, double span) {
    return form.timed(at, amount, span);
  }
}
