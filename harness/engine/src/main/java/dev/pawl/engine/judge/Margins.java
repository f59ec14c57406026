package dev.pawl.engine.judge;

import dev.pawl.engine.Margin;
import dev.pawl.engine.graph.Moments;
import java.util.Optional;

/** The smallest margin offered so far; the earliest of equal ones is kept. */
final class Margins {

  private static final double MOMENTS_PER_SECOND = 2e9;

  private final String unit;
  private double least = Double.NaN;
  private long time;
  private long trigger;
  private boolean atMost;

  /** Margins in {@code unit}, an SI unit. */
  Margins(String unit) {
    this.unit = unit;
  }

  /** Offers a margin in the unit; the places are moments. Unknown values are left out. */
  void offer(double value, long at, long triggered) {
    if (value < least || value == least && at < time || least != least && value == value) {
      least = value;
      time = at;
      trigger = triggered;
      atMost = false;
    }
  }

  /** Offers a margin in time, as a number of moments. */
  void offerMoments(long moments, long at, long triggered) {
    offer(moments / MOMENTS_PER_SECOND, at, triggered);
  }

  /** Offers a margin in time that is not known exactly, but no better than this. */
  void offerAtMost(long moments, long at, long triggered) {
    double before = least;
    offerMoments(moments, at, triggered);
    atMost |= least != before;
  }

  Optional<Margin> margin() {
    return least != least ? Optional.empty()
        : Optional.of(new Margin(least, unit, Moments.nanoseconds(time), Moments.nanoseconds(trigger), atMost));
  }
}
