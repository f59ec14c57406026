package dev.pawl.grammar.rules.model;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** The signals behind the conditions of rules. */
public final class RuleParts {

  private RuleParts() {}

  /** Indices of the signals a rule needs, those behind its zones included. */
  public static Set<Integer> signals(Rule rule, RuleBook book) {
    return signals(rule.duty().conditions(), book);
  }

  /** Indices of the signals that conditions need, those behind their zones included. */
  public static Set<Integer> signals(List<BoolExpr> conditions, RuleBook book) {
    Set<Integer> signals = new TreeSet<>();
    Set<Integer> zones = new TreeSet<>();
    conditions.forEach(condition -> gather(condition, book, signals, zones));
    return signals;
  }

  private static void gather(BoolExpr condition, RuleBook book, Set<Integer> signals, Set<Integer> zones) {
    signals.addAll(condition.signals());
    for (int zone : condition.zones()) {
      if (zones.add(zone)) {
        book.zones().get(zone).conditions().forEach(part -> gather(part, book, signals, zones));
      }
    }
  }
}
