package dev.pawl.engine.plan;

import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.operator.Distance;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.NumExpr;

/** Makes what measures how far a condition is from breaking, where it is made of comparisons of one dimension. */
final class DistancePlanner {

  private final ExpressionPlanner expressions;

  DistancePlanner(ExpressionPlanner expressions) {
    this.expressions = expressions;
  }

  /** The distance's dimension, or null where the condition has no distance. */
  static Dimension dimension(BoolExpr expression) {
    if (expression instanceof BoolExpr.Not e) {
      return dimension(e.operand());
    } else if (expression instanceof BoolExpr.And e) {
      return common(dimension(e.left()), dimension(e.right()));
    } else if (expression instanceof BoolExpr.Or e) {
      return common(dimension(e.left()), dimension(e.right()));
    } else if (expression instanceof BoolExpr.Compare e) {
      return moves(e.left()) || moves(e.right()) ? null : e.dimension();
    }
    return null;
  }

  private static boolean moves(NumExpr side) {
    return side instanceof NumExpr.TimeSince || side instanceof NumExpr.Mean;
  }

  private static Dimension common(Dimension left, Dimension right) {
    return left != null && left.equals(right) ? left : null;
  }

  /** A condition's distance; to be asked only where {@link #dimension(BoolExpr)} is not null. */
  Distance plan(BoolExpr expression) {
    return plan(expression, false);
  }

  /** Negation turns comparisons, and {@code and} and {@code or}, into each other, so that it needs nothing of its own. */
  private Distance plan(BoolExpr expression, boolean negated) {
    if (expression instanceof BoolExpr.Not e) {
      return plan(e.operand(), !negated);
    } else if (expression instanceof BoolExpr.And e) {
      return new Distance.OfPair(negated, plan(e.left(), negated), plan(e.right(), negated));
    } else if (expression instanceof BoolExpr.Or e) {
      return new Distance.OfPair(!negated, plan(e.left(), negated), plan(e.right(), negated));
    } else if (expression instanceof BoolExpr.Compare e) {
      NumNode left = expressions.plan(e.left());
      NumNode right = expressions.plan(e.right());
      return new Distance.OfComparison(negated ? e.comparison().negated() : e.comparison(), left, right);
    }
    throw new IllegalArgumentException("no distance: " + expression);
  }
}
