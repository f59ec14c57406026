package dev.pawl.engine.plan;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.BitSet;

/** Finds the signals and zones that expressions rest on. */
final class Expressions {

  private final BitSet signals = new BitSet();
  private final BitSet zones = new BitSet();

  /** Signals found so far. */
  int[] signals() {
    return signals.stream().toArray();
  }

  /** Zones found so far. */
  int[] zones() {
    return zones.stream().toArray();
  }

  /** Adds the flags of the zones found so far to the signals. */
  Expressions throughZones(RuleBook book) {
    for (int zone : zones()) {
      boundary(book.zones().get(zone).entry());
      boundary(book.zones().get(zone).exit());
    }
    return this;
  }

  Expressions boundary(Zone.Boundary boundary) {
    if (boundary instanceof Zone.Edge edge) {
      return of(edge.event());
    } else if (boundary instanceof Zone.Pair pair) {
      return of(pair.outer()).of(pair.inner());
    }
    throw new IllegalArgumentException("no such boundary: " + boundary);
  }

  Expressions of(BoolExpr expression) {
    if (expression instanceof BoolExpr.Signal e) {
      signals.set(e.signal());
    } else if (expression instanceof BoolExpr.Not e) {
      of(e.operand());
    } else if (expression instanceof BoolExpr.And e) {
      of(e.left()).of(e.right());
    } else if (expression instanceof BoolExpr.Or e) {
      of(e.left()).of(e.right());
    } else if (expression instanceof BoolExpr.Same e) {
      of(e.left()).of(e.right());
    } else if (expression instanceof BoolExpr.Compare e) {
      of(e.left()).of(e.right());
    } else if (expression instanceof BoolExpr.EnumEquals e) {
      of(e.left()).of(e.right());
    } else {
      overTime(expression);
    }
    return this;
  }

  private void overTime(BoolExpr expression) {
    if (expression instanceof BoolExpr.Rises e) {
      of(e.operand());
    } else if (expression instanceof BoolExpr.Falls e) {
      of(e.operand());
    } else if (expression instanceof BoolExpr.BoolChanges e) {
      of(e.operand());
    } else if (expression instanceof BoolExpr.NumChanges e) {
      of(e.operand());
    } else if (expression instanceof BoolExpr.EnumChanges e) {
      of(e.operand());
    } else if (expression instanceof BoolExpr.HeldFor e) {
      of(e.operand());
    } else if (expression instanceof BoolExpr.InLast e) {
      of(e.operand());
    } else if (expression instanceof BoolExpr.Since e) {
      of(e.operand()).of(e.anchor());
    } else if (expression instanceof BoolExpr.Previous e) {
      of(e.operand());
    } else if (expression instanceof BoolExpr.Occupied e) {
      zones.set(e.zone());
    } else if (expression instanceof BoolExpr.Enters e) {
      zones.set(e.zone());
    } else if (expression instanceof BoolExpr.Leaves e) {
      zones.set(e.zone());
    } else if (expression instanceof BoolExpr.BacksOut e) {
      zones.set(e.zone());
    } else if (expression instanceof BoolExpr.Miscounts e) {
      zones.set(e.zone());
    }
  }

  Expressions of(NumExpr expression) {
    if (expression instanceof NumExpr.Signal e) {
      signals.set(e.signal());
    } else if (expression instanceof NumExpr.Negate e) {
      of(e.operand());
    } else if (expression instanceof NumExpr.Arithmetic e) {
      of(e.left()).of(e.right());
    } else if (expression instanceof NumExpr.CountInLast e) {
      of(e.event());
    } else if (expression instanceof NumExpr.CountSince e) {
      of(e.event()).of(e.anchor());
    } else if (expression instanceof NumExpr.TimeSince e) {
      of(e.event());
    } else if (expression instanceof NumExpr.Extreme e) {
      of(e.operand());
    } else if (expression instanceof NumExpr.Mean e) {
      of(e.operand());
    } else if (expression instanceof NumExpr.Rate e) {
      of(e.operand());
    } else if (expression instanceof NumExpr.Previous e) {
      of(e.operand());
    } else if (expression instanceof NumExpr.PassingSpeed e) {
      of(e.from()).of(e.to());
    } else if (expression instanceof NumExpr.Trains e) {
      zones.set(e.zone());
    }
    return this;
  }

  Expressions of(EnumExpr expression) {
    if (expression instanceof EnumExpr.Signal e) {
      signals.set(e.signal());
    } else if (expression instanceof EnumExpr.Previous e) {
      of(e.operand());
    }
    return this;
  }
}
