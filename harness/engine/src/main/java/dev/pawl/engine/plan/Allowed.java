package dev.pawl.engine.plan;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparisons;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;

/** What a rule allows, as a measure for its margins. */
final class Allowed {

  private static final double NANOSECONDS_PER_SECOND = 1e9;

  private Allowed() {}

  /**
   * The time for a response, or the first number that the rule compares with in this unit.
   *
   * @param unit the SI unit of the margins
   * @return more than 0, in the unit; NaN where the rule states neither
   */
  static double by(Rule rule, String unit) {
    if (unit.equals("s")) {
      return rule.duty() instanceof Rule.When when && when.demand() instanceof Demand.Within within
          && within.within() > 0 ? within.within() / NANOSECONDS_PER_SECOND : Double.NaN;
    }
    for (BoolExpr.Compare compare : Comparisons.of(rule)) {
      NumExpr bound = compare.right() instanceof NumExpr.Constant ? compare.right() : compare.left();
      if (bound instanceof NumExpr.Constant constant && compare.dimension().siUnit().equals(unit)
          && constant.value() != 0) {
        return Math.abs(constant.value());
      }
    }
    return Double.NaN;
  }
}
