package dev.pawl.run.stress;

import dev.pawl.plant.loop.Truth;
import java.util.OptionalDouble;

/** What a run is made small for. */
sealed interface Sought {

  /** When a run showed it, seconds after its start; empty where it did not. */
  OptionalDouble shownBy(RunResult result);

  /** A hazard of a kind that a rule noticed, or none did. */
  record Hazard(Truth.Kind kind, boolean noticed) implements Sought {
    @Override
    public OptionalDouble shownBy(RunResult result) {
      return result.first(kind, noticed).map(it -> OptionalDouble.of(it.seconds())).orElse(OptionalDouble.empty());
    }
  }

  /** A rule that is broken. */
  record Break(int rule) implements Sought {
    @Override
    public OptionalDouble shownBy(RunResult result) {
      return result.isBroken(rule) ? OptionalDouble.of(result.broken()[rule] / 1e9) : OptionalDouble.empty();
    }
  }
}
