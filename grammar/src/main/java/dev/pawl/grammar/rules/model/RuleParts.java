package dev.pawl.grammar.rules.model;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** The signals behind rules and expressions. */
public final class RuleParts {

  private RuleParts() {}

  /** Indices of the signals a rule needs, those behind its zones included. */
  public static Set<Integer> signals(Rule rule, RuleBook book) {
    return signals(rule.duty().conditions(), book);
  }

  /** Indices of the signals that expressions need, those behind their zones included. */
  public static Set<Integer> signals(List<? extends Expr> expressions, RuleBook book) {
    Set<Integer> signals = new TreeSet<>();
    Set<Integer> zones = new TreeSet<>();
    expressions.forEach(expression -> gather(expression, book, signals, zones));
    return signals;
  }

  private static void gather(Expr expression, RuleBook book, Set<Integer> signals, Set<Integer> zones) {
    signals.addAll(expression.signals());
    for (int zone : expression.zones()) {
      if (zones.add(zone)) {
        book.zones().get(zone).conditions().forEach(part -> gather(part, book, signals, zones));
      }
    }
  }
}
