package dev.pawl.plant.scenario;

import java.util.List;

/** Something that people at the desk do in steps. */
public record Act(String name, List<Step> steps) {

  public Act {
    steps = List.copyOf(steps);
  }

  /** When its first step begins, in seconds from the moment that a scenario names. */
  public double begins() {
    return steps.stream().mapToDouble(Step::from).min().orElse(0);
  }

  /** A signal held for a while; times are seconds from the moment that a scenario names. */
  public record Step(double from, double to, int signal, double value) {}
}
