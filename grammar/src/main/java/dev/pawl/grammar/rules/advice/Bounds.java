package dev.pawl.grammar.rules.advice;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.NumExpr;
import java.util.Optional;

/**
 * The numbers that comparisons with fixed bounds leave.
 *
 * @param least the lower bound
 * @param leastIn whether the lower bound itself is left
 * @param most the upper bound
 * @param mostIn whether the upper bound itself is left
 */
record Bounds(double least, boolean leastIn, double most, boolean mostIn) {

  /** The side that a comparison with a fixed number bounds. */
  static NumExpr bounded(BoolExpr.Compare compare) {
    return compare.left() instanceof NumExpr.Constant ? compare.right() : compare.left();
  }

  /** What a comparison leaves, where exactly one side is fixed and the rest is one stretch. */
  static Optional<Bounds> of(BoolExpr.Compare compare) {
    boolean fixedLeft = compare.left() instanceof NumExpr.Constant;
    boolean fixedRight = compare.right() instanceof NumExpr.Constant;
    if (fixedLeft == fixedRight || compare.comparison() == Comparison.NOT_EQUAL) {
      return Optional.empty();
    }
    double bound = ((NumExpr.Constant) (fixedLeft ? compare.left() : compare.right())).value();
    double infinity = Double.POSITIVE_INFINITY;
    return Optional.of(switch (fixedLeft ? compare.comparison().mirrored() : compare.comparison()) {
      case LESS -> new Bounds(-infinity, false, bound, false);
      case AT_MOST -> new Bounds(-infinity, false, bound, true);
      case GREATER -> new Bounds(bound, false, infinity, false);
      case AT_LEAST -> new Bounds(bound, true, infinity, false);
      case EQUAL, NOT_EQUAL -> new Bounds(bound, true, bound, true);
    });
  }

  Bounds and(Bounds other) {
    double low = Math.max(least, other.least);
    double high = Math.min(most, other.most);
    return new Bounds(low, holds(low, true) && other.holds(low, true), high, holds(high, false)
        && other.holds(high, false));
  }

  private boolean holds(double bound, boolean lower) {
    return lower ? bound > least || leastIn : bound < most || mostIn;
  }

  boolean isEmpty() {
    return least > most || least == most && !(leastIn && mostIn);
  }

  /** Whether what can never be below 0 (counts, trains, times since, speeds of passing) would have to be. */
  boolean isEmptyFor(BoolExpr.Compare compare) {
    NumExpr bounded = bounded(compare);
    boolean neverNegative = bounded instanceof NumExpr.CountInLast || bounded instanceof NumExpr.CountSince
        || bounded instanceof NumExpr.Trains || bounded instanceof NumExpr.TimeSince
            || bounded instanceof NumExpr.PassingSpeed;
    return neverNegative && and(new Bounds(0, true, Double.POSITIVE_INFINITY, false)).isEmpty();
  }
}
