package dev.pawl.grammar.rules.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** The conditions of rules, and the signals and zones behind them. */
public final class RuleParts {

  private RuleParts() {}

  /** Trigger, scopes and all that is required, in the order written. */
  public static List<BoolExpr> conditions(Rule.Duty duty) {
    List<BoolExpr> conditions = new ArrayList<>();
    if (duty instanceof Rule.When when) {
      conditions.add(when.trigger());
    }
    duty.whilst().ifPresent(conditions::add);
    duty.unless().ifPresent(conditions::add);
    conditions.addAll(required(duty));
    return conditions;
  }

  /** What is required, with the limits and releases that belong to it. */
  public static List<BoolExpr> required(Rule.Duty duty) {
    if (duty instanceof Rule.Always always) {
      return List.of(always.required());
    }
    Demand demand = ((Rule.When) duty).demand();
    if (demand instanceof Demand.Throughout throughout) {
      return List.of(throughout.required());
    }
    if (demand instanceof Demand.Before before) {
      return List.of(before.required(), before.limit());
    }
    BoolExpr condition = demand instanceof Demand.AtOnce once ? once.required() : ((Demand.Within) demand).required();
    Optional<Demand.Stay> stay = demand instanceof Demand.AtOnce once ? once.stay() : ((Demand.Within) demand).stay();
    List<BoolExpr> conditions = new ArrayList<>(List.of(condition));
    if (stay.isPresent() && stay.get() instanceof Demand.StayUntil until) {
      conditions.add(until.release());
    }
    return conditions;
  }

  /** Indices of the signals a rule needs, those behind its zones included. */
  public static Set<Integer> signals(Rule rule, RuleBook book) {
    return signals(conditions(rule.duty()), book);
  }

  /** Indices of the signals that conditions need, those behind their zones included. */
  public static Set<Integer> signals(List<BoolExpr> conditions, RuleBook book) {
    Set<Integer> signals = new TreeSet<>();
    Set<Integer> zones = new TreeSet<>();
    conditions.forEach(condition -> gather(condition, book, signals, zones));
    return signals;
  }

  private static void gather(BoolExpr condition, RuleBook book, Set<Integer> signals, Set<Integer> zones) {
    signals.addAll(Expressions.signals(condition));
    for (int zone : Expressions.zones(condition)) {
      if (zones.add(zone)) {
        Expressions.of(book.zones().get(zone).entry()).forEach(part -> gather(part, book, signals, zones));
        Expressions.of(book.zones().get(zone).exit()).forEach(part -> gather(part, book, signals, zones));
      }
    }
  }
}
