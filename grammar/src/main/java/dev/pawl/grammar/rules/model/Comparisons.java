package dev.pawl.grammar.rules.model;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** The comparisons of numbers that a rule makes. */
public final class Comparisons {

  private Comparisons() {}

  /** Those that it requires come first. */
  public static List<BoolExpr.Compare> of(Rule rule) {
    Set<BoolExpr.Compare> comparisons = new LinkedHashSet<>();
    rule.duty().requirements().forEach(condition -> gather(condition, comparisons));
    rule.duty().conditions().forEach(condition -> gather(condition, comparisons));
    return List.copyOf(comparisons);
  }

  private static void gather(BoolExpr condition, Set<BoolExpr.Compare> comparisons) {
    condition.walk(node -> {
      if (node instanceof BoolExpr.Compare comparison) {
        comparisons.add(comparison);
      }
    });
  }
}
