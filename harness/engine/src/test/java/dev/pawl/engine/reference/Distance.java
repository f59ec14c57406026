package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;

/** How far a condition made of comparisons is from being false, at every moment; NaN where a compared number is unknown. */
record Distance(double[] values, String unit) {

  static Optional<Distance> of(Moments moments, BoolExpr condition) {
    Set<Dimension> dimensions = new HashSet<>();
    if (!onlyComparisons(moments, condition, dimensions) || dimensions.size() != 1) {
      return Optional.empty();
    }
    return Optional.of(new Distance(values(moments, condition), dimensions.iterator().next().siUnit()));
  }

  private static boolean onlyComparisons(Moments moments, BoolExpr condition, Set<Dimension> dimensions) {
    if (condition instanceof BoolExpr.Not not) {
      return onlyComparisons(moments, not.operand(), dimensions);
    }
    if (condition instanceof BoolExpr.And and) {
      return onlyComparisons(moments, and.left(), dimensions) && onlyComparisons(moments, and.right(), dimensions);
    }
    if (condition instanceof BoolExpr.Or or) {
      return onlyComparisons(moments, or.left(), dimensions) && onlyComparisons(moments, or.right(), dimensions);
    }
    if (condition instanceof BoolExpr.Compare compare) {
      Dimension left = dimension(moments, compare.left());
      Dimension right = dimension(moments, compare.right());
      dimensions.add(left != null ? left : right != null ? right : Dimension.NONE);
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

  /** The dimension of a number; null for one made of constants only, which takes that of what it is compared with. */
  private static Dimension dimension(Moments moments, NumExpr number) {
    if (number instanceof NumExpr.Signal signal) {
      return ((ValueType.Quantity) moments.book.signals().get(signal.signal()).type()).dimension();
    }
    if (number instanceof NumExpr.Negate negate) {
      return dimension(moments, negate.operand());
    }
    if (number instanceof NumExpr.Arithmetic arithmetic) {
      return dimension(arithmetic.operator(), dimension(moments, arithmetic.left()), dimension(moments, arithmetic.right()));
    }
    if (number instanceof NumExpr.Extreme extreme) {
      return dimension(moments, extreme.operand());
    }
    if (number instanceof NumExpr.Mean mean) {
      return dimension(moments, mean.operand());
    }
    if (number instanceof NumExpr.Previous previous) {
      return dimension(moments, previous.operand());
    }
    if (number instanceof NumExpr.Rate rate) {
      Dimension operand = dimension(moments, rate.operand());
      return operand == null ? null : operand.per(Dimension.TIME);
    }
    if (number instanceof NumExpr.PassingSpeed) {
      return Dimension.SPEED;
    }
    if (number instanceof NumExpr.TimeSince) {
      return Dimension.TIME;
    }
    return number instanceof NumExpr.Constant ? null : Dimension.NONE;
  }

  private static Dimension dimension(NumExpr.Operator operator, Dimension left, Dimension right) {
    if (left == null && right == null) {
      return null;
    }
    Dimension leftOrNone = left == null ? Dimension.NONE : left;
    Dimension rightOrNone = right == null ? Dimension.NONE : right;
    return switch (operator) {
      case ADD, SUBTRACT -> left == null ? right : left;
      case MULTIPLY -> leftOrNone.times(rightOrNone);
      case DIVIDE -> leftOrNone.per(rightOrNone);
    };
  }

  private static boolean moves(NumExpr number) {
    return number instanceof NumExpr.TimeSince || number instanceof NumExpr.Mean
        || number instanceof NumExpr.Negate negate && moves(negate.operand())
        || number instanceof NumExpr.Arithmetic arithmetic && (moves(arithmetic.left()) || moves(arithmetic.right()));
  }
}
