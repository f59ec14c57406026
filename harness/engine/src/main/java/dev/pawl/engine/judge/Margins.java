package dev.pawl.engine.judge;

import dev.pawl.engine.Margin;
import dev.pawl.engine.MarginSpread;
import dev.pawl.engine.graph.Moments;
import java.util.Optional;

/**
 * The smallest margin offered so far, of which the earliest of equal ones is kept; and how those of the single
 * obligations spread.
 */
final class Margins {

  private static final double MOMENTS_PER_SECOND = 2e9;

  private final String unit;
  private double least = Double.NaN;
  private long time;
  private long trigger;
  private boolean atMost;
  private double allowed = Double.NaN;
  private long current = Moments.NEVER;
  /** The smallest margin of the obligation with the current trigger. */
  private double leastOfCurrent = Double.NaN;
  private long belowTenth;
  private long belowQuarter;
  private long belowHalf;
  private long more;

  /** Margins in {@code unit}, an SI unit. */
  Margins(String unit) {
    this.unit = unit;
  }

  String unit() {
    return unit;
  }

  /** Has margins counted by their shares of this, in the unit; by NaN they are not. */
  void measureBy(double measure) {
    allowed = measure;
  }

  /** Offers a margin in the unit; the places are moments. Unknown values are left out. */
  void offer(double value, long at, long triggered) {
    if (value < least || value == least && at < time || least != least && value == value) {
      least = value;
      time = at;
      trigger = triggered;
      atMost = false;
    }
    if (triggered != current) {
      count();
      current = triggered;
    }
    if (value < leastOfCurrent || leastOfCurrent != leastOfCurrent) {
      leastOfCurrent = value;
    }
  }

  /** Counts the obligation of the current trigger, where a margin of it is known and it was met. */
  private void count() {
    double share = leastOfCurrent / allowed;
    if (share >= 0 && share < 0.1) {
      belowTenth++;
    } else if (share >= 0 && share < 0.25) {
      belowQuarter++;
    } else if (share >= 0 && share < 0.5) {
      belowHalf++;
    } else if (share >= 0.5) {
      more++;
    }
    leastOfCurrent = Double.NaN;
  }

  /** How they spread; empty where nothing says by what to measure them. */
  Optional<MarginSpread> spread() {
    count();
    MarginSpread spread = new MarginSpread(allowed, belowTenth, belowQuarter, belowHalf, more);
    return allowed == allowed ? Optional.of(spread) : Optional.empty();
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
