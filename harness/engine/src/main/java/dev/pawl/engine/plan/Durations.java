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
    return event.accept(new Turning(true));
  }

  /** Whether an expression may become true, or false, so. */
  private record Turning(boolean becomesTrue) implements BoolExpr.Question<Boolean> {

    /** The others turn with a signal or a zone. */
    @Override public Boolean otherwise(BoolExpr e) { return false; }

    @Override public Boolean visit(BoolExpr.Not e) { return turns(e.operand(), !becomesTrue); }
    @Override public Boolean visit(BoolExpr.And e) { return turns(e.left()) || turns(e.right()); }
    @Override public Boolean visit(BoolExpr.Or e) { return turns(e.left()) || turns(e.right()); }
    @Override public Boolean visit(BoolExpr.Rises e) { return turns(e.operand(), true); }
    @Override public Boolean visit(BoolExpr.Falls e) { return turns(e.operand(), false); }
    @Override public Boolean visit(BoolExpr.HeldFor e) { return becomesTrue || turns(e.operand(), false); }
    @Override public Boolean visit(BoolExpr.InLast e) { return !becomesTrue || turns(e.operand(), true); }

    @Override
    public Boolean visit(BoolExpr.Compare e) {
      return e.left() instanceof NumExpr.TimeSince || e.right() instanceof NumExpr.TimeSince;
    }

    private boolean turns(BoolExpr operand) {
      return operand.accept(this);
    }

    private static boolean turns(BoolExpr operand, boolean becomesTrue) {
      return operand.accept(new Turning(becomesTrue));
    }
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
