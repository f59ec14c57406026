package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Truth;
import java.util.List;
import java.util.OptionalLong;
import java.util.Set;

/**
 * What a trigger's event is about, where it may not have been so, or not for so long.
 *
 * @param rising its truth as the rule reads it, borderline where it becomes so again too soon
 * @param brief for how few moments it may be so without having been; 0 for none
 */
record TriggerState(BoolExpr state, Truth[] rising, long brief) {

  static TriggerState of(BoolExpr event, Moments moments, long resolution) {
    BoolExpr state = event instanceof BoolExpr.Rises rises ? rises.operand()
        : event instanceof BoolExpr.Falls falls ? new BoolExpr.Not(falls.operand()) : event;
    Set<Integer> signals = RuleParts.signals(List.of(state), moments.book);
    long period = Order.period(moments, signals);
    long brief = Condition.haveEvents(List.of(state)) ? 0 : hasDurations(state) ? 2 * (resolution + period)
        : signals.size() > 1 ? 2 * Math.max(resolution, period) : 0;
    Condition condition = Condition.of(state, new Nearly(moments, OptionalLong.of(resolution), brief)::of, moments,
        resolution, true);
    return new TriggerState(state, condition.toRise(brief), brief);
  }

  /** Whether it is not surely so for long enough after it has become so. */
  boolean goesSoon(int m0) {
    for (long m = m0 + 1L; m < m0 + brief; m++) {
      if (m >= rising.length || rising[(int) m] == Truth.FALSE || rising[(int) m] == Truth.UNKNOWN) {
        return true;
      }
    }
    return false;
  }

  private static boolean hasDurations(BoolExpr e) {
    return e instanceof BoolExpr.HeldFor || e instanceof BoolExpr.InLast
        || e instanceof BoolExpr.Not not && hasDurations(not.operand())
        || e instanceof BoolExpr.And and && (hasDurations(and.left()) || hasDurations(and.right()))
        || e instanceof BoolExpr.Or or && (hasDurations(or.left()) || hasDurations(or.right()))
        || e instanceof BoolExpr.Same same && (hasDurations(same.left()) || hasDurations(same.right()));
  }

  /** Makes the truth at every moment, borderline where a duration is only nearly reached. */
  private record Nearly(Moments moments, OptionalLong resolution, long brief) {
    Truth[] of(BoolExpr e) {
      TruthTables truths = moments.tables(0, resolution, false);
      if (e instanceof BoolExpr.HeldFor held) {
        return nearly(truths.of(e), truths.of(new BoolExpr.HeldFor(held.operand(),
            Math.max(held.duration() - brief / 2, 0))), Truth.FALSE);
      } else if (e instanceof BoolExpr.InLast inLast) {
        return nearly(truths.of(e), truths.of(new BoolExpr.InLast(inLast.operand(),
            Math.max(inLast.duration() - brief / 2, 0))), Truth.TRUE);
      } else if (e instanceof BoolExpr.Since) {
        return moments.tables(brief, resolution, false).of(e);
      } else if (e instanceof BoolExpr.Not not) {
        return each(of(not.operand()), null, (one, other) -> TruthTables.not(one));
      } else if (e instanceof BoolExpr.And and) {
        return each(of(and.left()), of(and.right()), TruthTables::and);
      } else if (e instanceof BoolExpr.Or or) {
        return each(of(or.left()), of(or.right()), TruthTables::or);
      } else if (e instanceof BoolExpr.Same same) {
        return each(of(same.left()), of(same.right()), TruthTables::same);
      }
      return moments.truths.of(e);
    }
  }

  private static Truth[] nearly(Truth[] seen, Truth[] shorter, Truth rest) {
    Truth[] near = seen.clone();
    for (int m = 1; m < seen.length; m++) {
      boolean rests = seen[m] == rest && seen[m - 1] == rest && shorter[m] == rest;
      near[m] = rests && shorter[m - 1] == TruthTables.not(rest) ? Truth.BORDERLINE : seen[m];
    }
    return near;
  }

  private interface Table {
    Truth of(Truth one, Truth other);
  }

  private static Truth[] each(Truth[] one, Truth[] other, Table table) {
    Truth[] all = new Truth[one.length];
    for (int m = 0; m < all.length; m++) {
      all[m] = table.of(one[m], other == null ? null : other[m]);
    }
    return all;
  }
}
