package dev.pawl.engine.operator;

import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Comparison;

/** The distance of a condition to breaking, by its quantitative semantics. Positive while it holds. */
public final class Distances {

  private Distances() {}

  /** Of a single comparison. */
  public static final class OfComparison extends Numbers.Pair {
    private final Comparison comparison;

    public OfComparison(Comparison comparison, NumNode left, NumNode right) {
      super(left, right);
      this.comparison = comparison;
    }

    @Override
    public boolean update(long moment) {
      return become(comparison.distance(left.value, right.value));
    }
  }

  /** Of {@code and} (the lesser) or {@code or} (the greater). */
  public static final class OfPair extends Numbers.Pair {
    private final boolean greater;

    public OfPair(boolean greater, NumNode left, NumNode right) {
      super(left, right);
      this.greater = greater;
    }

    @Override
    public boolean update(long moment) {
      return become(greater ? Math.max(left.value, right.value) : Math.min(left.value, right.value));
    }
  }
}
