package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Truth;

/** Arithmetic and comparison of numbers of one moment. */
public final class Numbers {

  private Numbers() {}

  /** Unary minus. */
  public static final class Negate extends NumOperator {

    public Negate(NumNode operand) {
      super(operand);
    }

    @Override
    public boolean update(long moment) {
      return become(-operand.value);
    }
  }

  /** One of the four operations. */
  public static final class Arithmetic extends NumNode {
    private final NumExpr.Operator operator;
    private final NumNode left;
    private final NumNode right;

    public Arithmetic(NumExpr.Operator operator, NumNode left, NumNode right) {
      this.operator = operator;
      this.left = left;
      this.right = right;
    }

    @Override
    protected void connect() {
      dependOn(left);
      dependOn(right);
    }

    @Override
    public boolean update(long moment) {
      return become(switch (operator) {
        case ADD -> left.value + right.value;
        case SUBTRACT -> left.value - right.value;
        case MULTIPLY -> left.value * right.value;
        case DIVIDE -> left.value / right.value;
      });
    }
  }

  /** A comparison of two numbers that do not move between events. */
  public static final class Compare extends BoolNode {
    private final Comparison comparison;
    private final NumNode left;
    private final NumNode right;
    private final double tolerance;
    /** Null where every comparison has to be made. */
    private KnownComparison ground;

    public Compare(Comparison comparison, NumNode left, NumNode right, double tolerance) {
      this.comparison = comparison;
      this.left = left;
      this.right = right;
      this.tolerance = tolerance;
    }

    @Override
    protected void connect() {
      dependOn(right);
      if (KnownComparison.suits(comparison, right)) {
        ground = new KnownComparison(comparison, dependOnRange(left));
      } else {
        dependOn(left);
      }
    }

    @Override
    public boolean update(long moment) {
      int truth = truth(comparison, left.value, right.value, tolerance);
      if (ground != null) {
        learn(truth);
      }
      return become(truth);
    }

    private void learn(int truth) {
      switch (truth) {
        case Truth.T -> ground.holds(left.value);
        case Truth.F -> ground.fails(left.value);
        default -> ground.isUnclear();
      }
    }
  }

  /** The truth of a comparison; unknown where a side is NaN, borderline where nearer than the tolerance. */
  public static int truth(Comparison comparison, double left, double right, double tolerance) {
    if (left != left || right != right) {
      return Truth.U;
    }
    if (tolerance > 0 && Math.abs(left - right) < tolerance) {
      return Truth.B;
    }
    return comparison.holds(left, right) ? Truth.T : Truth.F;
  }
}
