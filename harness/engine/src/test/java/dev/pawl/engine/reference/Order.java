package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Collection;
import java.util.List;
import java.util.NavigableSet;
import java.util.Set;
import java.util.TreeSet;

/**
 * How near an event a condition's change leaves open which of them came first, in moments.
 *
 * @param before a change that came less than this before the event may have come after it
 * @param after one that came less than this after the event may have come before it
 * @param scattered whether that is so of the values of one instant too
 * @param image whether what the condition becomes in the event's image, it was then for certain
 * @param begins only changes after this moment count
 * @param changes the moments at which a signal behind the condition changes
 */
record Order(long before, long after, boolean scattered, boolean image, long begins, NavigableSet<Integer> changes) {

  /** The order is what it seems to be. */
  static final Order KNOWN = new Order(0, 0, false, false, 0, new TreeSet<>());

  /** By the resolution in nanoseconds, the event, and the signals behind the condition. */
  static Order of(Moments moments, long resolution, BoolExpr happening, Collection<Integer> condition, long begins) {
    Set<Integer> event = RuleParts.signals(List.of(happening), moments.book);
    if (event.containsAll(condition)) {
      return KNOWN;
    }
    long ofEvent = period(moments, event);
    long ofCondition = period(moments, condition);
    return new Order(2 * Math.max(resolution, ofEvent), 2 * Math.max(resolution, ofCondition), ofEvent > 0
        || ofCondition > 0 || comesWithTime(happening), false, begins, moments.changes(condition));
  }

  /** Whether something may happen at a moment at which no signal changes. */
  private static boolean comesWithTime(BoolExpr event) {
    return event instanceof BoolExpr.HeldFor || event instanceof BoolExpr.InLast last && comesWithTime(last.operand())
        || event instanceof BoolExpr.Rises rises && comesWithTime(rises.operand())
        || event instanceof BoolExpr.Falls falls && goesWithTime(falls.operand())
        || event instanceof BoolExpr.Not not && goesWithTime(not.operand())
        || event instanceof BoolExpr.And and && (comesWithTime(and.left()) || comesWithTime(and.right()))
        || event instanceof BoolExpr.Or or && (comesWithTime(or.left()) || comesWithTime(or.right()))
        || isTime(event);
  }

  private static boolean goesWithTime(BoolExpr state) {
    return state instanceof BoolExpr.InLast || state instanceof BoolExpr.HeldFor held && goesWithTime(held.operand())
        || state instanceof BoolExpr.Rises rises && comesWithTime(rises.operand())
        || state instanceof BoolExpr.Falls falls && goesWithTime(falls.operand())
        || state instanceof BoolExpr.Not not && comesWithTime(not.operand())
        || state instanceof BoolExpr.And and && (goesWithTime(and.left()) || goesWithTime(and.right()))
        || state instanceof BoolExpr.Or or && (goesWithTime(or.left()) || goesWithTime(or.right()))
        || isTime(state);
  }

  private static boolean isTime(BoolExpr state) {
    return state instanceof BoolExpr.Compare compare
        && (compare.left() instanceof NumExpr.TimeSince || compare.right() instanceof NumExpr.TimeSince);
  }

  /**
   * The same of an event that only possibly happens, of which there is no image, and after which nothing is waited for.
   */
  Order ofPossible() {
    return new Order(before, 0, true, false, begins, changes);
  }

  static long period(Moments moments, Collection<Integer> signals) {
    return signals.stream().mapToLong(moments.sampling::period).max().orElse(0);
  }

  /** Whether a condition may have been otherwise when the event happened that is seen at {@code m0}. */
  boolean contests(Condition condition, int m0) {
    Truth[] table = condition.seen();
    int changed = m0;
    while (changed > 0 && table[changed - 1] == table[m0]) {
      changed--;
    }
    return changed > begins && changed > m0 - before && (scattered || changed < m0)
        && (table[changed - 1] != Truth.BORDERLINE || !changes.subSet(changed, true, m0, true).isEmpty())
        || !scattered && changed == m0 && condition.parts().size() > 1
            && condition.restsOnTurned(Math.max(begins, m0 - before), m0)
        || condition.waversIn(Math.max(begins, m0 - before) + 1, m0);
  }

  /** Whether a condition became something in the image of the event that is seen at {@code m0}. */
  boolean shows(Truth[] table, Truth value, int m0) {
    return image && m0 > begins && table[m0] == value && table[m0 - 1] == TruthTables.not(value);
  }

  /** The same as {@link #surely}, of a condition that is to be something. */
  int surely(int m0, Moments moments, Truth[] table, Truth value) {
    return shows(table, value, m0) ? m0 : surely(m0, moments);
  }

  /** From this moment on what is so was surely not so before the event only. */
  int surely(int m0, Moments moments) {
    return (int) Math.min(m0 + Math.max(after - 1, 0), moments.last());
  }
}
