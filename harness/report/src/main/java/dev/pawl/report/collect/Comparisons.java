package dev.pawl.report.collect;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Expressions;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleParts;
import java.util.ArrayList;
import java.util.List;

/** The comparisons of numbers that a rule makes. */
public final class Comparisons {

  private Comparisons() {}

  public static List<BoolExpr.Compare> of(Rule rule) {
    List<BoolExpr.Compare> comparisons = new ArrayList<>();
    for (BoolExpr condition : RuleParts.conditions(rule.duty())) {
      Expressions.walk(condition, node -> {
        if (node instanceof BoolExpr.Compare comparison) {
          comparisons.add(comparison);
        }
      });
    }
    return comparisons;
  }
}
