package dev.pawl.engine.plan;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Expr;
import dev.pawl.grammar.rules.model.NumExpr;

/** The durations in conditions that are read at another's moment, where times are not exact. */
final class Durations {

  private Durations() {}

  /** Whether an expression has any. */
  static boolean areIn(Expr expression) {
    boolean[] found = {false};
    expression.walk(part -> found[0] |= part instanceof BoolExpr.HeldFor || part instanceof BoolExpr.InLast
        || part instanceof BoolExpr.Since || part instanceof NumExpr.CountInLast || part instanceof NumExpr.TimeSince);
    return found[0];
  }

  /** Whether something may happen by itself, when its time has come, at a moment at which no signal changes. */
  static boolean comesWithTime(BoolExpr event) {
    return turnsWithTime(event, true);
  }

  /** Whether an expression may become true, or false, so. */
  private static boolean turnsWithTime(BoolExpr expression, boolean becomesTrue) {
    if (expression instanceof BoolExpr.HeldFor e) {
      return becomesTrue || turnsWithTime(e.operand(), false);
    } else if (expression instanceof BoolExpr.InLast e) {
      return !becomesTrue || turnsWithTime(e.operand(), true);
    } else if (expression instanceof BoolExpr.Rises e) {
      return turnsWithTime(e.operand(), true);
    } else if (expression instanceof BoolExpr.Falls e) {
      return turnsWithTime(e.operand(), false);
    } else if (expression instanceof BoolExpr.Not e) {
      return turnsWithTime(e.operand(), !becomesTrue);
    } else if (expression instanceof BoolExpr.And e) {
      return turnsWithTime(e.left(), becomesTrue) || turnsWithTime(e.right(), becomesTrue);
    } else if (expression instanceof BoolExpr.Or e) {
      return turnsWithTime(e.left(), becomesTrue) || turnsWithTime(e.right(), becomesTrue);
    }
    return expression instanceof BoolExpr.Compare e
        && (e.left() instanceof NumExpr.TimeSince || e.right() instanceof NumExpr.TimeSince);
  }

  /** Whether an expression has any that are read with it: not what happens, which has a time of its own. */
  static boolean areRead(Expr expression) {
    return expression instanceof BoolExpr condition && !(condition instanceof BoolExpr.Moment)
        && !(condition instanceof BoolExpr.Previous) && areIn(condition);
  }

  /** Whether a comparison is one of counts over a duration. */
  static boolean areCounted(BoolExpr.Compare comparison) {
    return !longer(comparison, 2).equals(comparison);
  }

  /** A comparison whose counts are taken over durations that are longer by some moments. */
  static BoolExpr.Compare longer(BoolExpr.Compare e, long moments) {
    return new BoolExpr.Compare(e.comparison(), longer(e.left(), moments), longer(e.right(), moments), e.tolerance(),
        e.dimension());
  }

  private static NumExpr longer(NumExpr number, long moments) {
    if (number instanceof NumExpr.CountInLast e) {
      return new NumExpr.CountInLast(e.event(), Math.max(e.duration() + moments / 2, 0));
    } else if (number instanceof NumExpr.Negate e) {
      return new NumExpr.Negate(longer(e.operand(), moments));
    } else if (number instanceof NumExpr.Arithmetic e) {
      return new NumExpr.Arithmetic(e.operator(), longer(e.left(), moments), longer(e.right(), moments));
    }
    return number;
  }
}
