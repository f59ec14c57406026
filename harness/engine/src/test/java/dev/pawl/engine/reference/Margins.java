package dev.pawl.engine.reference;

import dev.pawl.engine.Margin;
import java.util.Optional;

/** The smallest distance to breaking seen so far; among equals the earliest place, then the earliest trigger. */
final class Margins {
  private final long start;
  private Margin smallest;

  Margins(long start) {
    this.start = start;
  }

  /** Adds a distance in time, given in moments. */
  void time(long moments, long place, long trigger, boolean atMost) {
    add(new Margin(moments / 2.0 / 1e9, "s", time(place), time(trigger), atMost));
  }

  void quantity(double value, String unit, long place, long trigger) {
    if (!Double.isNaN(value)) {
      add(new Margin(value, unit, time(place), time(trigger), false));
    }
  }

  private long time(long moment) {
    return start + Math.floorDiv(moment, 2);
  }

  private void add(Margin margin) {
    if (smallest == null || margin.value() < smallest.value()
        || margin.value() == smallest.value() && margin.time() < smallest.time()
        || margin.value() == smallest.value() && margin.time() == smallest.time() && margin.trigger() < smallest.trigger()) {
      smallest = margin;
    }
  }

  Optional<Margin> smallest() {
    return Optional.ofNullable(smallest);
  }
}
