package dev.pawl.engine.operator;

import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.NumNode;

/**
 * {@code min(x) over D} and {@code max(x) over D}: the past values that can still become the extreme, each with the last moment at which x
 * had it, from the most extreme (and oldest) on. A value that a later one reaches, the present one among them, cannot.
 */
public final class Extremes extends NumOperator {

  private final boolean greatest;
  private final long span;
  private final LongQueue past = new LongQueue(2);
  private double current = Double.NaN;
  private long lastUnknown = Moments.NEVER;

  public Extremes(boolean greatest, NumNode operand, long duration) {
    super(operand);
    this.greatest = greatest;
    this.span = Moments.span(duration);
  }

  @Override
  public boolean update(long moment) {
    follow(operand.value, moment);
    while (!past.isEmpty() && Moments.later(past.get(0, 0), span) < moment) {
      past.removeFirst();
    }
    boolean unknown = lastUnknown != Moments.NEVER && Moments.later(lastUnknown, span) >= moment;
    long next = past.isEmpty() ? Moments.FOREVER : Moments.later(past.get(0, 0), span + 1);
    boolean unknownLeaves = unknown && current == current;
    graph.wake(this, unknownLeaves ? Math.min(next, Moments.later(lastUnknown, span + 1)) : next);
    return become(unknown ? Double.NaN : past.isEmpty() ? current : valueOf(0));
  }

  private void follow(double next, long moment) {
    if (current != current) {
      lastUnknown = lastUnknown == Moments.NEVER ? Moments.NEVER : moment - 1;
    } else if (next != next || exceeds(current, next)) {
      int place = past.add();
      past.set(place, 0, moment - 1);
      past.set(place, 1, Double.doubleToRawLongBits(current));
    } else {
      dropReached(next);
    }
    lastUnknown = next == next ? lastUnknown : moment;
    current = next;
  }

  private void dropReached(double next) {
    while (!past.isEmpty() && reaches(next, valueOf(past.size() - 1))) {
      past.removeLast();
    }
  }

  private double valueOf(int place) {
    return Double.longBitsToDouble(past.get(place, 1));
  }

  private boolean exceeds(double one, double other) {
    return greatest ? one > other : one < other;
  }

  private boolean reaches(double one, double other) {
    return greatest ? one >= other : one <= other;
  }
}
