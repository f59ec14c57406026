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
    return expression.accept(DIMENSION);
  }

  private static final BoolExpr.Question<Dimension> DIMENSION = new BoolExpr.Question<>() {
    @Override public Dimension otherwise(BoolExpr e) { return null; }
    @Override public Dimension visit(BoolExpr.Not e) { return dimension(e.operand()); }
    @Override public Dimension visit(BoolExpr.And e) { return common(dimension(e.left()), dimension(e.right())); }
    @Override public Dimension visit(BoolExpr.Or e) { return common(dimension(e.left()), dimension(e.right())); }
    @Override public Dimension visit(BoolExpr.Compare e) {
      return moves(e.left()) || moves(e.right()) ? null : e.dimension();
    }
  };

  private static boolean moves(NumExpr side) {
    return side instanceof NumExpr.TimeSince || side instanceof NumExpr.Mean;
  }

  private static Dimension common(Dimension left, Dimension right) {
    return left != null && left.equals(right) ? left : null;
  }

  /** A condition's distance; to be asked only where {@link #dimension(BoolExpr)} is not null. */
  Distance plan(BoolExpr expression) {
    return expression.accept(new Maker(false));
  }

  /**
   * Negation turns comparisons, and {@code and} and {@code or}, into each other, so that it needs nothing of its own.
   */
  private final class Maker implements BoolExpr.Question<Distance> {

    private final boolean negated;

    Maker(boolean negated) {
      this.negated = negated;
    }

    @Override
    public Distance otherwise(BoolExpr e) {
      throw new IllegalArgumentException("no distance: " + e);
    }

    @Override
    public Distance visit(BoolExpr.Not e) {
      return e.operand().accept(new Maker(!negated));
    }

    @Override
    public Distance visit(BoolExpr.And e) {
      return new Distance.OfPair(negated, e.left().accept(this), e.right().accept(this));
    }

    @Override
    public Distance visit(BoolExpr.Or e) {
      return new Distance.OfPair(!negated, e.left().accept(this), e.right().accept(this));
    }

    @Override
    public Distance visit(BoolExpr.Compare e) {
      NumNode left = expressions.plan(e.left());
      NumNode right = expressions.plan(e.right());
      return new Distance.OfComparison(negated ? e.comparison().negated() : e.comparison(), left, right);
    }
  }
}
