package dev.pawl.run.stress;

import dev.pawl.plant.loop.Truth;
import java.util.OptionalDouble;

/** What a run is made small for. */
public sealed interface Sought {

  /** It in words that {@link #of} reads. */
  String words();

  /** What {@link #words} says. */
  static Sought of(String words) {
    String[] parts = words.split(" ");
    return parts.length == 1 ? new Break(Integer.parseInt(parts[0]))
        : new Hazard(Truth.Kind.valueOf(parts[0]), Boolean.parseBoolean(parts[1]));
  }

  /** When a run showed it, seconds after its start; empty where it did not. */
  OptionalDouble shownBy(RunResult result);

  /** A hazard of a kind that a rule noticed, or none did. */
  record Hazard(Truth.Kind kind, boolean noticed) implements Sought {
    @Override public String words() { return kind + " " + noticed; }

    @Override
    public OptionalDouble shownBy(RunResult result) {
      return result.first(kind, noticed).map(it -> OptionalDouble.of(it.seconds())).orElse(OptionalDouble.empty());
    }
  }

  /** A rule that is broken. */
  record Break(int rule) implements Sought {
    @Override public String words() { return "" + rule; }

    @Override
    public OptionalDouble shownBy(RunResult result) {
      return result.isBroken(rule) ? OptionalDouble.of(result.broken()[rule] / 1e9) : OptionalDouble.empty();
    }
  }
}
