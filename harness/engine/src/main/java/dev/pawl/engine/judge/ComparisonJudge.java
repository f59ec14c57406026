package dev.pawl.engine.judge;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.operator.Distance;
import dev.pawl.engine.operator.KnownComparison;
import dev.pawl.engine.operator.Numbers;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Truth;

/**
 * {@code always P} of a single comparison, which the judge does itself: numbers change often, and so truth and margin
 * cost one evaluation.
 */
public final class ComparisonJudge extends StretchJudge {

  private final Distance.OfComparison distance;
  private final double tolerance;
  private final BoolNode applies;
  /** Null where every comparison has to be made. */
  private KnownComparison ground;

  /**
   * A judge.
   *
   * @param tolerance SI; a distance smaller than this makes the comparison borderline
   * @param stretch where the rule applies
   */
  public ComparisonJudge(int rule, CaseFile cases, Comparison comparison, NumNode left, NumNode right, double tolerance,
      Stretch stretch, String marginUnit) {
    super(rule, cases, stretch, marginUnit);
    this.distance = new Distance.OfComparison(comparison, left, right);
    this.tolerance = tolerance;
    this.applies = stretch.applies();
  }

  @Override
  protected void connect() {
    super.connect();
    dependOn(distance.right());
    if (KnownComparison.suits(distance.comparison(), distance.right())) {
      ground = new KnownComparison(distance.comparison(), dependOnRange(distance.left()));
    } else {
      dependOn(distance.left());
    }
  }

  @Override
  public boolean update(long moment) {
    int truth = Numbers.truth(distance.comparison(), distance.left().value, distance.right().value, tolerance);
    judge(truth, moment);
    offer(distance.now(), moment);
    if (ground != null) {
      learn(truth);
    }
    return false;
  }

  /**
   * While it holds where the rule applies, only a new least margin is of interest, and a breach; where the rule does
   * not apply, nothing.
   */
  private void learn(int truth) {
    if (applies.value == Truth.F) {
      ground.isUnneeded();
    } else if (applies.value == Truth.T && truth == Truth.T && hasBegun()) {
      ground.holds(distance.left().value);
    } else {
      ground.isUnclear();
    }
  }
}
