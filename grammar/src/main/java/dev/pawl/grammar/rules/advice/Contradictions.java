package dev.pawl.grammar.rules.advice;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Finds rules that cannot both hold: the same trigger, and at that instant one requires what the other forbids. */
final class Contradictions {

  /** Pairs that are looked at for each rule; a book with more rules of one trigger is beyond help by warnings. */
  private static final int MOST_PARTNERS = 200;

  private final List<Rule> rules;

  Contradictions(List<Rule> rules) {
    this.rules = rules;
  }

  List<Diagnostic> find() {
    List<Diagnostic> warnings = new ArrayList<>();
    Map<BoolExpr, List<Rule>> byTrigger = new HashMap<>();
    for (Rule rule : rules) {
      if (rule.duty() instanceof Rule.When when && when.unless().isEmpty() && atTrigger(when.demand()) != null) {
        compare(rule, byTrigger.computeIfAbsent(condition(when), t -> new ArrayList<>()), warnings);
      } else if (rule.duty() instanceof Rule.Always always && always.whilst().isEmpty() && always.unless().isEmpty()) {
        compare(rule, byTrigger.computeIfAbsent(new BoolExpr.Constant(true), t -> new ArrayList<>()), warnings);
      }
    }
    return warnings;
  }

  private static BoolExpr condition(Rule.When when) {
    return when.whilst().<BoolExpr>map(q -> new BoolExpr.And(when.trigger(), q)).orElse(when.trigger());
  }

  private static void compare(Rule rule, List<Rule> partners, List<Diagnostic> warnings) {
    for (Rule partner : partners.subList(0, Math.min(partners.size(), MOST_PARTNERS))) {
      if (StaticTruth.isNeverTrue(new BoolExpr.And(required(partner), required(rule)))) {
        warnings.add(Diagnostic.warning(rule.position(), "rule " + rule.id() + " contradicts rule " + partner.id()
            + ": they cannot both hold", "the other one is at " + partner.position()));
      }
    }
    partners.add(rule);
  }

  private static BoolExpr required(Rule rule) {
    return rule.duty().match(when -> atTrigger(when.demand()), Rule.Always::required);
  }

  /** What must be true at the trigger itself, or null where the demand leaves time. */
  private static BoolExpr atTrigger(Demand demand) {
    if (demand instanceof Demand.AtOnce once) {
      return once.required();
    }
    return demand instanceof Demand.Throughout throughout && throughout.after() == 0 ? throughout.required() : null;
  }
}
