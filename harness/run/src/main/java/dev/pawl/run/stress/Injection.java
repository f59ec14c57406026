package dev.pawl.run.stress;

import dev.pawl.plant.scenario.Scenario.Timed;
import java.util.List;

/**
 * A fault put into a run.
 *
 * @param at seconds since the start
 * @param span seconds for which it lasts; infinite to the end
 */
public record Injection(Candidate candidate, double at, double amount, double span) {

  Injection at(double other) {
    return new Injection(candidate, other, amount, span);
  }

  Injection withAmount(double other) {
    return new Injection(candidate, at, other, span);
  }

  Injection withSpan(double other) {
    return new Injection(candidate, at, amount, other);
  }

  /** What is done then, and what ends it. */
  List<Timed> timed() {
    return candidate.timed(at, amount, span);
  }
}
