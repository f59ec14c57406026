package dev.pawl.engine.operator;

import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Comparison;

/** The distance of a condition to breaking, by its quantitative semantics. Positive while it holds. */
public final class Distances {

  private Distances() {}

  /** The distance of a comparison; NaN where a side is unknown. */
  public static double of(Comparison comparison, double left, double right) {
    return switch (comparison) {
      case LESS, AT_MOST -> right - left;
      case GREATER, AT_LEAST -> left - right;
      case EQUAL -> -Math.abs(left - right);
      case NOT_EQUAL -> Math.abs(left - right);
    };
  }

  /** Of a single comparison. */
  public static final class OfComparison extends NumNode {
    private final Comparison comparison;
    private final NumNode left;
    private final NumNode right;

    public OfComparison(Comparison comparison, NumNode left, NumNode right) {
      this.comparison = comparison;
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
      return become(of(comparison, left.value, right.value));
    }
  }

  /** Of {@code and} (the lesser) or {@code or} (the greater). */
  public static final class OfPair extends NumNode {
    private final boolean greater;
    private final NumNode left;
    private final NumNode right;

    public OfPair(boolean greater, NumNode left, NumNode right) {
      this.greater = greater;
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
      return become(greater ? Math.max(left.value, right.value) : Math.min(left.value, right.value));
    }
  }
}
