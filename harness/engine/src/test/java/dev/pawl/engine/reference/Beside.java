package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.BoolExpr;
import java.util.ArrayList;
import java.util.List;

/** The event of a trigger, and the states that stand beside it: {@code E and q}. */
final class Beside {

  private Beside() {}

  static BoolExpr event(BoolExpr trigger) {
    List<BoolExpr> parts = parts(trigger, true);
    return parts.isEmpty() ? trigger : parts.stream().reduce(BoolExpr.And::new).orElseThrow();
  }

  static List<BoolExpr> states(BoolExpr trigger) {
    return parts(trigger, true).isEmpty() ? List.of() : parts(trigger, false);
  }

  private static List<BoolExpr> parts(BoolExpr trigger, boolean events) {
    if (trigger instanceof BoolExpr.And both) {
      List<BoolExpr> parts = new ArrayList<>(parts(both.left(), events));
      parts.addAll(parts(both.right(), events));
      return parts;
    }
    return isEvent(trigger) == events ? List.of(trigger) : List.of();
  }

  private static boolean isEvent(BoolExpr expression) {
    return expression instanceof BoolExpr.Moment || expression instanceof BoolExpr.And both
        && (isEvent(both.left()) || isEvent(both.right())) || expression instanceof BoolExpr.Or either
        && isEvent(either.left()) && isEvent(either.right());
  }
}
