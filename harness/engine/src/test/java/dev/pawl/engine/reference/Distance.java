package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.NumExpr;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;

/**
 * How far a condition made of comparisons is from being false, at every moment; NaN where a compared number is unknown.
 */
record Distance(double[] values, String unit) {

  static Optional<Distance> of(Moments moments, BoolExpr condition) {
    Set<Dimension> dimensions = new HashSet<>();
    if (!onlyComparisons(condition, dimensions) || dimensions.size() != 1) {
      return Optional.empty();
    }
    return Optional.of(new Distance(values(moments, condition), dimensions.iterator().next().siUnit()));
  }

  private static boolean onlyComparisons(BoolExpr condition, Set<Dimension> dimensions) {
    if (condition instanceof BoolExpr.Not not) {
      return onlyComparisons(not.operand(), dimensions);
    }
    if (condition instanceof BoolExpr.And and) {
      return onlyComparisons(and.left(), dimensions) && onlyComparisons(and.right(), dimensions);
    }
    if (condition instanceof BoolExpr.Or or) {
      return onlyComparisons(or.left(), dimensions) && onlyComparisons(or.right(), dimensions);
    }
    if (condition instanceof BoolExpr.Compare compare) {
      dimensions.add(compare.dimension());
      return !moves(compare.left()) && !moves(compare.right());
    }
    return false;
  }

  private static double[] values(Moments moments, BoolExpr condition) {
    double[] values = new double[moments.count];
    if (condition instanceof BoolExpr.Compare compare) {
      double[] left = moments.numbers.of(compare.left());
      double[] right = moments.numbers.of(compare.right());
      for (int m = 0; m < values.length; m++) {
        values[m] = distance(compare.comparison(), left[m], right[m]);
      }
    } else if (condition instanceof BoolExpr.Not not) {
      double[] operand = values(moments, not.operand());
      for (int m = 0; m < values.length; m++) {
        values[m] = -operand[m];
      }
    } else if (condition instanceof BoolExpr.And and) {
      double[] left = values(moments, and.left());
      double[] right = values(moments, and.right());
      for (int m = 0; m < values.length; m++) {
        values[m] = Math.min(left[m], right[m]);
      }
    } else if (condition instanceof BoolExpr.Or or) {
      double[] left = values(moments, or.left());
      double[] right = values(moments, or.right());
      for (int m = 0; m < values.length; m++) {
        values[m] = Math.max(left[m], right[m]);
      }
    }
    return values;
  }

  private static double distance(Comparison comparison, double left, double right) {
    return switch (comparison) {
      case LESS, AT_MOST -> right - left;
      case GREATER, AT_LEAST -> left - right;
      case EQUAL -> -Math.abs(left - right);
      case NOT_EQUAL -> Math.abs(left - right);
    };
  }

  private static boolean moves(NumExpr number) {
    return number instanceof NumExpr.TimeSince || number instanceof NumExpr.Mean
        || number instanceof NumExpr.Negate negate && moves(negate.operand())
        || number instanceof NumExpr.Arithmetic arithmetic && (moves(arithmetic.left()) || moves(arithmetic.right()));
  }
}
