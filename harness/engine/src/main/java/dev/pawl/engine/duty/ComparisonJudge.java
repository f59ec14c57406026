package dev.pawl.engine.duty;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.operator.Numbers;
import dev.pawl.grammar.rules.model.Comparison;

/** {@code always P} of a single comparison, which the judge does itself: numbers change often, and so truth and margin cost one evaluation. */
public final class ComparisonJudge extends StretchJudge {

  private final Comparison comparison;
  private final NumNode left;
  private final NumNode right;
  private final double tolerance;

  /**
   * A judge.
   *
   * @param tolerance SI; a distance smaller than this makes the comparison borderline
   * @param applies where the rule applies
   */
  public ComparisonJudge(int rule, CaseFile cases, Comparison comparison, NumNode left, NumNode right, double tolerance, BoolNode applies,
      String marginUnit) {
    super(rule, cases, applies, marginUnit);
    this.comparison = comparison;
    this.left = left;
    this.right = right;
    this.tolerance = tolerance;
  }

  @Override
  protected void connect() {
    super.connect();
    dependOn(left);
    dependOn(right);
  }

  @Override
  public boolean update(long moment) {
    judge(Numbers.truth(comparison, left.value, right.value, tolerance), moment);
    double distance = comparison.distance(left.value, right.value);
    offer(Double.isFinite(distance) ? distance : Double.NaN, moment);
    return false;
  }
}
