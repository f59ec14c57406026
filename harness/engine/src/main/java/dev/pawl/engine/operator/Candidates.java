package dev.pawl.engine.operator;

import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;

/**
 * The greatest, or the least, value of a number over the last while: the past values that can still become it, each
 * with the last moment at which the number had it, from the most extreme (and oldest) on. A value that a later one
 * reaches, the present one among them, cannot.
 */
final class Candidates {

  private final boolean greatest;
  private final long span;
  private final LongQueue past = new LongQueue(2);

  /** Over {@code span} moments before the present one, and that. */
  Candidates(boolean greatest, long span) {
    this.greatest = greatest;
    this.span = span;
  }

  /** The number, which was known, is from a moment on another or unknown. */
  void follow(double before, double now, long moment) {
    if (now != now || exceeds(before, now)) {
      int place = past.add();
      past.set(place, 0, moment - 1);
      past.set(place, 1, Double.doubleToRawLongBits(before));
    } else {
      while (!past.isEmpty() && reaches(now, valueOf(past.size() - 1))) {
        past.removeLast();
      }
    }
  }

  /** Forgets what has left the window at a moment. */
  void forget(long moment) {
    while (!past.isEmpty() && Moments.later(past.get(0, 0), span) < moment) {
      past.removeFirst();
    }
  }

  /** When the next of them leaves the window; {@link Moments#FOREVER} if there is none. */
  long nextLeaving() {
    return past.isEmpty() ? Moments.FOREVER : Moments.later(past.get(0, 0), span + 1);
  }

  /** The extreme, of what has not left the window and the present value. */
  double extreme(double now) {
    return past.isEmpty() ? now : valueOf(0);
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
