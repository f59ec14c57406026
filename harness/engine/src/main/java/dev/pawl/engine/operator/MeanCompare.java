package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Truth;

/**
 * A comparison of {@code mean(x) over D} with a number. While all values in the window are on one side of it, so is the
 * mean, until x or the number changes. Else: between a change of x and the next edge of a past piece leaving the window
 * the mean moves one way only, so the moment at which the comparison changes is found by halving.
 */
public final class MeanCompare extends BoolNode {

  private final Comparison comparison;
  private final NumNode operand;
  private final NumNode bound;
  private final double tolerance;
  private final long span;
  /**
   * Past pieces: begin, value. Each ends where the next, or the current one, begins. A value taken just after a time
   * begins at that time.
   */
  private final LongQueue past = new LongQueue(2);
  /** The area under the past pieces, kept up only while it is needed. */
  private final ExactSum pastArea = new ExactSum();
  private boolean needsArea;
  /**
   * When the last past piece ended that was not above {@link #boundThen}, or not below it, by at least the tolerance.
   */
  private long lastNotAbove = Moments.NEVER;
  private long lastNotBelow = Moments.NEVER;
  private double boundThen = Double.NaN;
  private double current = Double.NaN;
  private long currentFrom;
  private long lastUnknown = Moments.NEVER;
  private boolean started;

  public MeanCompare(Comparison comparison, NumNode operand, long duration, NumNode bound, double tolerance) {
    this.comparison = comparison;
    this.operand = operand;
    this.bound = bound;
    this.tolerance = tolerance;
    this.span = Moments.span(duration);
  }

  @Override
  protected void connect() {
    dependOn(operand);
    dependOn(bound);
  }

  @Override
  public boolean update(long moment) {
    followBound();
    followOperand(moment);
    long from = windowStart(moment);
    if (lastUnknown != Moments.NEVER && lastUnknown >= from) {
      graph.wake(this, current != current ? Moments.FOREVER : Moments.later(lastUnknown, span + 1));
      return become(Truth.U);
    }
    if (isAllOnOneSide(from)) {
      needsArea = false;
      graph.wake(this, Moments.FOREVER);
      return become(Numbers.truth(comparison, current, bound.value, tolerance));
    }
    forget(from);
    sumUp();
    double mean = mean(moment);
    graph.wake(this, nextChange(moment, mean));
    return become(Numbers.truth(comparison, mean, bound.value, tolerance));
  }

  private void followBound() {
    if (Changes.differ(bound.value, boundThen)) {
      boundThen = bound.value;
      lastNotAbove = Moments.NEVER;
      lastNotBelow = Moments.NEVER;
      for (int place = 0; place < past.size(); place++) {
        noteSide(valueOf(place), endOf(place));
      }
    }
  }

  private void followOperand(long moment) {
    if (started && !Changes.differ(current, operand.value)) {
      if (current != current) {
        lastUnknown = moment;
      }
      return;
    }
    if (started) {
      if (past.isFull()) {
        forget(windowStart(moment));
      }
      int place = past.add();
      past.set(place, 0, currentFrom);
      past.set(place, 1, Double.doubleToRawLongBits(current));
      noteSide(current, begin(moment));
      if (current != current) {
        lastUnknown = moment - 1;
      } else if (needsArea) {
        pastArea.add(current * (begin(moment) - currentFrom));
      }
    }
    started = true;
    current = operand.value;
    currentFrom = begin(moment);
    if (current != current) {
      lastUnknown = moment;
    }
  }

  private static long begin(long moment) {
    return Moments.of(Moments.nanoseconds(moment));
  }

  private long windowStart(long moment) {
    return Moments.later(graph.start(), span) > moment ? graph.start() : moment - span;
  }

  private long endOf(int place) {
    return place + 1 < past.size() ? past.get(place + 1, 0) : currentFrom;
  }

  private double valueOf(int place) {
    return Double.longBitsToDouble(past.get(place, 1));
  }

  /** Pieces that have left the window may stay until there is no room, or their area matters. */
  private void forget(long from) {
    while (!past.isEmpty() && endOf(0) <= from) {
      if (needsArea) {
        pastArea.add(-area(0));
      }
      past.removeFirst();
    }
  }

  private void noteSide(double value, long end) {
    int side = side(value);
    lastNotAbove = side == 2 ? lastNotAbove : end;
    lastNotBelow = side == -2 ? lastNotBelow : end;
  }

  private boolean isAllOnOneSide(long from) {
    int side = side(current);
    return side == 2 ? lastNotAbove <= from : side == -2 && lastNotBelow <= from;
  }

  /**
   * A piece that has come on another side stays for as long as the window, so that this is done no more than twice for
   * any piece.
   */
  private void sumUp() {
    if (!needsArea) {
      needsArea = true;
      pastArea.clear();
      for (int place = 0; place < past.size(); place++) {
        pastArea.add(area(place));
      }
    }
  }

  private double area(int place) {
    double value = valueOf(place);
    return value != value ? 0 : value * (endOf(place) - past.get(place, 0));
  }

  /** The mean at a moment before the oldest piece has left the window. */
  private double mean(long moment) {
    long from = windowStart(moment);
    if (moment == from || past.isEmpty()) {
      return current;
    }
    long clipped = from - past.get(0, 0);
    double first = valueOf(0);
    double whole = pastArea.plus(current * (moment - currentFrom));
    return (clipped > 0 ? whole - first * clipped : whole) / (moment - from);
  }

  private long nextChange(long moment, double mean) {
    if (past.isEmpty() || bound.value != bound.value) {
      return Moments.FOREVER;
    }
    long full = Moments.later(graph.start(), span);
    long edge = moment < full ? full : Moments.later(endOf(0), span);
    int now = side(mean);
    if (edge == Moments.FOREVER || side(mean(edge)) == now) {
      return edge;
    }
    long same = moment;
    long other = edge;
    while (other - same > 1) {
      long middle = same + (other - same) / 2;
      if (side(mean(middle)) == now) {
        same = middle;
      } else {
        other = middle;
      }
    }
    return other;
  }

  /** On which side of the bound, and within which tolerance, a value is: never decreases as the value rises. */
  private int side(double value) {
    double over = value - bound.value;
    if (over == 0) {
      return 0;
    }
    return (over > 0 ? 1 : -1) * (Math.abs(over) < tolerance ? 1 : 2);
  }
}
