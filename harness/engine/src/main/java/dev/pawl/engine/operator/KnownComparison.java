package dev.pawl.engine.operator;

import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.graph.RangeDependency;
import dev.pawl.grammar.rules.model.Comparison;

/**
 * What is known of the comparison of a number with a constant. As the number rises, such a comparison comes out one
 * way, then perhaps borderline, then the other way. So between the values for which it has come out one way, and beyond
 * them on that side, it need not be made again, nor can a value there be nearer to the constant than those have been.
 */
public final class KnownComparison {

  private final RangeDependency dependency;
  private final boolean holdsBelow;
  /** Of the values for which it held, and of those for which it did not, the nearest to the constant. */
  private double held;
  private double failed;

  /**
   * Nothing known yet.
   *
   * @param comparison one that it {@link #suits}
   * @param dependency over its left side
   */
  public KnownComparison(Comparison comparison, RangeDependency dependency) {
    this.dependency = dependency;
    holdsBelow = comparison.holds(0.0, 1.0);
    held = holdsBelow ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
    failed = -held;
  }

  /** Whether a comparison turns only once as its left side rises, its right side being a constant. */
  public static boolean suits(Comparison comparison, NumNode right) {
    return right instanceof Inputs.NumConstant && comparison.holds(0.0, 1.0) != comparison.holds(1.0, 0.0);
  }

  /**
   * It holds for the present value: from now on only what lies nearer to the constant than all that have held is of
   * interest.
   */
  public void holds(double value) {
    held = holdsBelow ? Math.max(held, value) : Math.min(held, value);
    ignoreOnSide(holdsBelow, held);
  }

  /** It does not hold for the present value. */
  public void fails(double value) {
    failed = holdsBelow ? Math.min(failed, value) : Math.max(failed, value);
    ignoreOnSide(!holdsBelow, failed);
  }

  /** How it comes out for the present value says nothing of others. */
  public void isUnclear() {
    dependency.mindAll();
  }

  /** For the time being nobody needs it. */
  public void isUnneeded() {
    dependency.ignoreAll();
  }

  private void ignoreOnSide(boolean below, double nearest) {
    if (below) {
      dependency.ignore(Double.NEGATIVE_INFINITY, nearest);
    } else {
      dependency.ignore(nearest, Double.POSITIVE_INFINITY);
    }
  }
}
