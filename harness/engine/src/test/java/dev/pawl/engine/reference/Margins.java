package dev.pawl.engine.reference;

import dev.pawl.engine.Margin;
import java.util.LinkedHashSet;
import java.util.Set;

/** The smallest distance to breaking seen so far; among equals the earliest place. Several obligations may share it. */
final class Margins {
  private final long start;
  private final Set<Margin> smallest = new LinkedHashSet<>();

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
    Margin before = smallest.isEmpty() ? margin : smallest.iterator().next();
    if (margin.value() < before.value() || margin.value() == before.value() && margin.time() < before.time()) {
      smallest.clear();
      smallest.add(margin);
    } else if (margin.value() == before.value() && margin.time() == before.time()) {
      smallest.add(margin);
    }
  }

  Set<Margin> smallest() {
    return Set.copyOf(smallest);
  }
}
