package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.BoolExpr;

/** Tells events, which are true at single instants only, from conditions that may stay true. */
final class Events {

  private Events() {}

  static boolean isEvent(BoolExpr expression) {
    if (expression instanceof BoolExpr.And and) {
      return isEvent(and.left()) || isEvent(and.right());
    }
    if (expression instanceof BoolExpr.Or or) {
      return isEvent(or.left()) && isEvent(or.right());
    }
    return expression instanceof BoolExpr.Rises || expression instanceof BoolExpr.Falls || expression instanceof BoolExpr.BoolChanges
        || expression instanceof BoolExpr.NumChanges || expression instanceof BoolExpr.EnumChanges
        || expression instanceof BoolExpr.Enters || expression instanceof BoolExpr.Leaves || expression instanceof BoolExpr.BacksOut
        || expression instanceof BoolExpr.Miscounts || expression instanceof BoolExpr.TraceStart
        || expression instanceof BoolExpr.TraceEnd;
  }
}
