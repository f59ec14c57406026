package dev.pawl.grammar.rules.advice;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.List;

/** Warnings about one rule: it says nothing, it cannot be met, or it is finer than the clock behind it. */
final class RuleAdvice {

  private final Rule rule;
  private final List<Diagnostic> warnings = new ArrayList<>();

  private RuleAdvice(Rule rule) {
    this.rule = rule;
  }

  static List<Diagnostic> of(Rule rule) {
    RuleAdvice advice = new RuleAdvice(rule);
    advice.scopes();
    advice.requirement();
    advice.trials();
    if (rule.resolution() > 0) {
      advice.durations();
    }
    return advice.warnings;
  }

  private void warn(String message, String hint) {
    warnings.add(Diagnostic.warning(rule.position(), "rule " + rule.id() + " " + message, hint));
  }

  private void scopes() {
    if (rule.duty() instanceof Rule.When when) {
      if (StaticTruth.isNeverTrue(when.trigger())) {
        warn("can never be exercised: its trigger can never be true", "");
        return;
      }
      if (StaticTruth.isAlwaysTrue(when.trigger())) {
        warn("arises once at most: its trigger is always true", "write always for what must hold at every time");
      }
    }
    rule.duty().whilst().ifPresent(q -> {
      BoolExpr both = rule.duty() instanceof Rule.When when ? new BoolExpr.And(when.trigger(), q) : q;
      if (StaticTruth.isNeverTrue(both)) {
        warn("can never be exercised: its while can never be true with it", "");
      }
    });
    rule.duty().unless().filter(StaticTruth::isAlwaysTrue)
        .ifPresent(c -> warn("can never be exercised: its unless is always true", ""));
  }

  private void requirement() {
    BoolExpr required = rule.duty().requirements().get(0);
    if (StaticTruth.isAlwaysTrue(required)) {
      warn("can never break: what it requires is always true", "");
    } else if (StaticTruth.isNeverTrue(required)) {
      warn("can never be met: what it requires can never be true", "");
    } else if (isLasting(required) && StaticTruth.isMomentary(required)) {
      warn("asks that an event goes on, which it cannot", "require what the event leads to");
    }
  }

  private void trials() {
    for (Proof.Trial trial : rule.proof().trials()) {
      if (trial.conditions().stream().anyMatch(StaticTruth::isNeverTrue)) {
        warn("can never be held: `" + trial.text() + "` can never happen",
            "name an event that asks for what the rule forbids");
      }
    }
  }

  /** Whether the requirement has to be true for longer than an instant. */
  private boolean isLasting(BoolExpr required) {
    return rule.duty().match(when -> when.demand() instanceof Demand.Throughout || when.demand().stay().isPresent(),
        always -> true);
  }

  private void durations() {
    if (rule.duty() instanceof Rule.When when) {
      deadlines(when.demand());
    }
    for (BoolExpr condition : rule.duty().conditions()) {
      condition.walk(node -> {
        if (node instanceof BoolExpr.HeldFor held) {
          fine(held.duration(), "for");
        } else if (node instanceof BoolExpr.InLast inLast) {
          fine(inLast.duration(), "in last");
        } else if (node instanceof NumExpr.CountInLast count) {
          fine(count.duration(), "in last");
        }
      });
    }
  }

  private void deadlines(Demand demand) {
    if (demand instanceof Demand.Within within && within.within() > 0) {
      fine(within.within(), "within");
    } else if (demand instanceof Demand.Throughout throughout) {
      fine(throughout.duration(), "throughout");
    }
    if (demand.stay().isPresent() && demand.stay().get() instanceof Demand.StayFor stayFor) {
      fine(stayFor.duration(), "stay so for");
    }
  }

  private void fine(long duration, String word) {
    if (duration < rule.resolution()) {
      warn("has a time behind `" + word + "` that is shorter than the resolution",
          "times are logged too coarsely to judge it: state a finer resolution, or a longer time");
    }
  }
}
