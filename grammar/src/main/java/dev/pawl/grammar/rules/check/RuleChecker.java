package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.tree.Duty;
import dev.pawl.grammar.rules.tree.Expression;
import java.util.Optional;

/** What one rule requires, with its names bound. */
final class RuleChecker {

  private final Context context;
  private final ExpressionChecker expressions;
  private final ExpressionChecker required;

  /**
   * @param expressions for triggers and scopes
   * @param tolerance for comparisons in what is required
   */
  RuleChecker(Context context, ExpressionChecker expressions, Tolerance tolerance) {
    this.context = context;
    this.expressions = expressions;
    this.required = expressions.with(tolerance);
  }

  /** The duty, or nothing where something is wrong with it, which is told. */
  Optional<Rule.Duty> check(Duty duty) {
    Optional<Optional<BoolExpr>> whilst = scope(duty, true);
    Optional<Optional<BoolExpr>> unless = scope(duty, false);
    Optional<Rule.Duty> checked = duty.match(when -> when(when, whilst, unless), everywhere -> everywhere(everywhere,
        whilst, unless));
    return whilst.isEmpty() || unless.isEmpty() ? Optional.empty() : checked;
  }

  /** The condition of a scope, inner nothing where the duty has none, outer nothing where it is wrong. */
  private Optional<Optional<BoolExpr>> scope(Duty duty, boolean whilst) {
    Optional<BoolExpr> found = Optional.empty();
    boolean wrong = false;
    for (Duty.Scope scope : duty.scopes()) {
      if (scope.whilst() != whilst) {
        continue;
      }
      if (found.isPresent()) {
        context.problems.error(scope.position(), "`" + (whilst ? "while" : "unless") + "` is stated twice",
            "join the two with " + (whilst ? "and" : "or"));
        wrong = true;
      }
      Optional<BoolExpr> condition = condition(expressions, scope.condition());
      wrong |= condition.isEmpty();
      found = condition;
    }
    return wrong ? Optional.empty() : Optional.of(found);
  }

  private static Optional<BoolExpr> condition(ExpressionChecker checker, Expression expression) {
    return checker.condition(expression).map(Checked.Condition::expression);
  }

  private Optional<Rule.Duty> when(Duty.When when, Optional<Optional<BoolExpr>> whilst,
      Optional<Optional<BoolExpr>> unless) {
    Optional<BoolExpr> trigger = condition(expressions, when.trigger());
    Optional<Demand> demand = demand(when.demand());
    if (trigger.isEmpty() || demand.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new Rule.When(trigger.get(), whilst.orElse(Optional.empty()), unless.orElse(Optional.empty()),
        demand.get()));
  }

  private Optional<Rule.Duty> everywhere(Duty.Everywhere duty, Optional<Optional<BoolExpr>> whilst,
      Optional<Optional<BoolExpr>> unless) {
    return condition(required, duty.condition()).map(condition ->
        new Rule.Always(duty.never() ? new BoolExpr.Not(condition) : condition,
        duty.never(), whilst.orElse(Optional.empty()), unless.orElse(Optional.empty())));
  }

  private Optional<Demand> demand(Duty.Demand demand) {
    Optional<BoolExpr> condition = condition(required, demand.required());
    Optional<Optional<Demand.Stay>> stay = stay(demand);
    Optional<Demand> timed = timed(demand, condition.orElse(new BoolExpr.Constant(true)),
        stay.orElse(Optional.empty()));
    return condition.isEmpty() || stay.isEmpty() ? Optional.empty() : timed;
  }

  private Optional<Demand> timed(Duty.Demand demand, BoolExpr condition, Optional<Demand.Stay> stay) {
    if (demand.timing().isEmpty()) {
      return Optional.of(new Demand.AtOnce(condition, stay));
    }
    return demand.timing().get().match(within -> {
      Optional<Long> after = optional(within.after());
      Optional<Long> window = optional(within.within());
      return after.isEmpty() || window.isEmpty() ? Optional.empty()
          : Optional.of(new Demand.Within(condition, after.get(), window.get(), stay));
    }, throughout -> {
      if (staysBesides(demand, "throughout", "lengthen the time behind throughout")) {
        return Optional.empty();
      }
      Optional<Long> after = optional(throughout.after());
      Optional<Long> duration = expressions.duration(throughout.duration());
      return after.isEmpty() || duration.isEmpty() ? Optional.empty()
          : Optional.of(new Demand.Throughout(condition, after.get(), duration.get()));
    }, before -> staysBesides(demand, "before", "make it a rule of its own") ? Optional.empty()
        : condition(expressions, before.limit()).map(limit -> new Demand.Before(condition, limit)));
  }

  /** Whether it also has to stay so, which a form does not allow; that is told. */
  private boolean staysBesides(Duty.Demand demand, String form, String hint) {
    demand.stay().ifPresent(stay -> context.problems.error(stay.position(), "`stay so` does not go with `" + form + "`",
        hint));
    return demand.stay().isPresent();
  }

  /** A duration, 0 where none is written, nothing where it is wrong. */
  private Optional<Long> optional(Optional<Expression> written) {
    return written.isEmpty() ? Optional.of(0L) : expressions.duration(written.get());
  }

  private Optional<Optional<Demand.Stay>> stay(Duty.Demand demand) {
    if (demand.stay().isEmpty()) {
      return Optional.of(Optional.empty());
    }
    return demand.stay().get().match(
        stayFor -> expressions.duration(stayFor.duration()).map(duration -> Optional.of(new Demand.StayFor(duration))),
        until -> condition(expressions, until.release()).map(release -> Optional.of(new Demand.StayUntil(release))));
  }
}
