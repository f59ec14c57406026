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
  private boolean started;
  private long lastUnknown = Moments.NEVER;

  public Extremes(boolean greatest, NumNode operand, long duration) {
    super(operand);
    this.greatest = greatest;
    this.span = Moments.span(duration);
  }

  @Override
  public boolean update(long moment) {
    if (started && current != operand.value) {
      retire(moment - 1);
    }
    started = true;
    current = operand.value;
    if (current != current) {
      lastUnknown = moment;
    } else {
      dropReached();
    }
    while (!past.isEmpty() && Moments.later(past.get(0, 0), span) < moment) {
      past.removeFirst();
    }
    boolean unknown = lastUnknown != Moments.NEVER && Moments.later(lastUnknown, span) >= moment;
    long next = past.isEmpty() ? Moments.FOREVER : Moments.later(past.get(0, 0), span + 1);
    boolean unknownLeaves = unknown && current == current;
    graph.wake(this, unknownLeaves ? Math.min(next, Moments.later(lastUnknown, span + 1)) : next);
    return become(unknown ? Double.NaN : past.isEmpty() ? current : valueOf(0));
  }

  private void dropReached() {
    while (!past.isEmpty() && !exceeds(valueOf(past.size() - 1), current)) {
      past.removeLast();
    }
  }

  private void retire(long lastMoment) {
    if (current != current) {
      lastUnknown = lastMoment;
      return;
    }
    int place = past.add();
    past.set(place, 0, lastMoment);
    past.set(place, 1, Double.doubleToRawLongBits(current));
  }

  private double valueOf(int place) {
    return Double.longBitsToDouble(past.get(place, 1));
  }

  private boolean exceeds(double one, double other) {
    return greatest ? one > other : one < other;
  }
}
