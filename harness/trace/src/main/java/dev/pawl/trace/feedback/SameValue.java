package dev.pawl.trace.feedback;

import dev.pawl.engine.EventSink;
import java.util.OptionalDouble;

/** When two engine values count as the same. */
interface SameValue {

  /** Bits are compared. */
  SameValue EXACT = (one, other) -> one == other;

  /** A thousandth of the greater number: what a log rounds away moves nothing. */
  double USUAL_SHARE = 1e-3;

  boolean isSame(long one, long other);

  /** Of numbers that may be so far apart, in SI base units; where nothing is stated, by a thousandth. */
  static SameValue ofNumbers(OptionalDouble off) {
    return (one, other) -> one == other
        || one != EventSink.UNKNOWN && other != EventSink.UNKNOWN
            && areNear(Double.longBitsToDouble(one), Double.longBitsToDouble(other), off);
  }

  private static boolean areNear(double one, double other, OptionalDouble off) {
    double most = off.isPresent() ? off.getAsDouble() : USUAL_SHARE * Math.max(Math.abs(one), Math.abs(other));
    return Math.abs(one - other) <= most;
  }
}
