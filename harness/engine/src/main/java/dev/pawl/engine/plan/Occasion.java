package dev.pawl.engine.plan;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Rule;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * When an obligation arises: an event happens while the states beside it, and the condition of {@code while}, are true.
 *
 * @param event what happens
 * @param states what has to be true then; empty for nothing
 */
record Occasion(BoolExpr event, Optional<BoolExpr> states) {

  static Occasion of(Rule.When when) {
    List<BoolExpr> events = new ArrayList<>();
    List<BoolExpr> states = new ArrayList<>();
    split(when.trigger(), events, states);
    if (events.isEmpty()) {
      return new Occasion(when.trigger(), when.whilst());
    }
    when.whilst().ifPresent(states::add);
    return new Occasion(events.stream().reduce(BoolExpr.And::new).orElseThrow(), states.stream()
        .reduce(BoolExpr.And::new));
  }

  private static void split(BoolExpr trigger, List<BoolExpr> events, List<BoolExpr> states) {
    if (trigger instanceof BoolExpr.And both) {
      split(both.left(), events, states);
      split(both.right(), events, states);
    } else {
      (isEvent(trigger) ? events : states).add(trigger);
    }
  }

  /** Whether a condition is true at single instants only. */
  static boolean isEvent(BoolExpr condition) {
    return condition instanceof BoolExpr.Moment || condition instanceof BoolExpr.And e
        && (isEvent(e.left()) || isEvent(e.right())) || condition instanceof BoolExpr.Or either
        && isEvent(either.left()) && isEvent(either.right());
  }
}
