package dev.pawl.grammar.rules.advice;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Finds conditions that no trace can make true. Sound but not complete: what is said to be never true is never true; of much that
 * is never true nothing is said.
 */
public final class StaticTruth {

  private StaticTruth() {}

  /** Whether no trace with known values makes it false. */
  public static boolean isAlwaysTrue(BoolExpr condition) {
    return isNeverTrue(negated(condition));
  }

  /** Whether no trace makes it true. */
  public static boolean isNeverTrue(BoolExpr condition) {
    if (condition instanceof BoolExpr.Or or) {
      return isNeverTrue(or.left()) && isNeverTrue(or.right());
    }
    if (condition instanceof BoolExpr.And) {
      List<BoolExpr> conjuncts = new ArrayList<>();
      flatten(condition, conjuncts);
      return conjuncts.stream().anyMatch(StaticTruth::isNeverTrue) || clash(conjuncts);
    }
    if (condition instanceof BoolExpr.Not not) {
      return !negated(not.operand()).equals(condition) ? isNeverTrue(negated(not.operand())) : false;
    }
    return isNeverTrueByForm(condition);
  }

  private static boolean isNeverTrueByForm(BoolExpr condition) {
    if (condition instanceof BoolExpr.Constant constant) {
      return !constant.value();
    }
    if (condition instanceof BoolExpr.Compare compare) {
      return isFalseByNumbers(compare);
    }
    if (condition instanceof BoolExpr.EnumEquals equal) {
      return equal.left() instanceof EnumExpr.Literal && equal.right() instanceof EnumExpr.Literal
          && !equal.left().equals(equal.right());
    }
    if (condition instanceof BoolExpr.HeldFor held) {
      return isMomentary(held.operand()) || isNeverTrue(held.operand());
    }
    if (condition instanceof BoolExpr.InLast inLast) {
      return isNeverTrue(inLast.operand());
    }
    if (condition instanceof BoolExpr.Since since) {
      return isNeverTrue(since.anchor());
    }
    if (condition instanceof BoolExpr.Rises rises) {
      return isNeverTrue(rises.operand()) || isAlwaysTrue(rises.operand());
    }
    if (condition instanceof BoolExpr.Falls falls) {
      return isNeverTrue(falls.operand()) || isAlwaysTrue(falls.operand());
    }
    return false;
  }

  private static boolean isFalseByNumbers(BoolExpr.Compare compare) {
    if (compare.left() instanceof NumExpr.Constant left && compare.right() instanceof NumExpr.Constant right) {
      return !compare.comparison().holds(left.value(), right.value());
    }
    return Bounds.of(compare).map(bounds -> bounds.isEmptyFor(compare)).orElse(false);
  }

  /** Whether it is true at single instants only. */
  public static boolean isMomentary(BoolExpr condition) {
    if (condition instanceof BoolExpr.And and) {
      return isMomentary(and.left()) || isMomentary(and.right());
    }
    if (condition instanceof BoolExpr.Or or) {
      return isMomentary(or.left()) && isMomentary(or.right());
    }
    return condition instanceof BoolExpr.Rises || condition instanceof BoolExpr.Falls || condition instanceof BoolExpr.BoolChanges
        || condition instanceof BoolExpr.NumChanges || condition instanceof BoolExpr.EnumChanges
        || condition instanceof BoolExpr.Enters || condition instanceof BoolExpr.Leaves || condition instanceof BoolExpr.BacksOut
        || condition instanceof BoolExpr.Miscounts || condition instanceof BoolExpr.TraceStart
        || condition instanceof BoolExpr.TraceEnd;
  }

  /** The negation, pushed inwards one step where that helps. */
  static BoolExpr negated(BoolExpr condition) {
    if (condition instanceof BoolExpr.Not not) {
      return not.operand();
    }
    if (condition instanceof BoolExpr.Constant constant) {
      return new BoolExpr.Constant(!constant.value());
    }
    if (condition instanceof BoolExpr.And and) {
      return new BoolExpr.Or(negated(and.left()), negated(and.right()));
    }
    if (condition instanceof BoolExpr.Or or) {
      return new BoolExpr.And(negated(or.left()), negated(or.right()));
    }
    if (condition instanceof BoolExpr.Compare compare) {
      return new BoolExpr.Compare(compare.comparison().negated(), compare.left(), compare.right(), compare.tolerance(),
          compare.dimension());
    }
    return new BoolExpr.Not(condition);
  }

  private static void flatten(BoolExpr condition, List<BoolExpr> conjuncts) {
    if (condition instanceof BoolExpr.And and) {
      flatten(and.left(), conjuncts);
      flatten(and.right(), conjuncts);
    } else if (condition instanceof BoolExpr.Not not && !(negated(not.operand()) instanceof BoolExpr.Not)) {
      flatten(negated(not.operand()), conjuncts);
    } else {
      conjuncts.add(condition);
    }
  }

  /** Whether two of several conditions cannot be true together. */
  private static boolean clash(List<BoolExpr> conjuncts) {
    Set<BoolExpr> seen = new HashSet<>(conjuncts);
    Map<EnumExpr, EnumExpr> members = new HashMap<>();
    Map<NumExpr, Bounds> bounds = new HashMap<>();
    for (BoolExpr conjunct : conjuncts) {
      boolean clashes = seen.contains(negated(conjunct)) || seen.contains(new BoolExpr.Not(conjunct))
          || edgeClash(conjunct, seen);
      if (conjunct instanceof BoolExpr.EnumEquals equal && equal.right() instanceof EnumExpr.Literal) {
        EnumExpr earlier = members.putIfAbsent(equal.left(), equal.right());
        clashes |= earlier != null && !earlier.equals(equal.right());
      }
      if (conjunct instanceof BoolExpr.Compare compare && Bounds.of(compare).isPresent()) {
        NumExpr bounded = Bounds.bounded(compare);
        Bounds all = bounds.merge(bounded, Bounds.of(compare).get(), Bounds::and);
        clashes |= all.isEmpty();
      }
      if (clashes) {
        return true;
      }
    }
    return false;
  }

  /** Just after p has become true it is true, and just after it has become false it is false. */
  private static boolean edgeClash(BoolExpr conjunct, Set<BoolExpr> others) {
    if (conjunct instanceof BoolExpr.Rises rises) {
      return others.contains(negated(rises.operand())) || others.contains(new BoolExpr.Falls(rises.operand()));
    }
    return conjunct instanceof BoolExpr.Falls falls && others.contains(falls.operand());
  }
}
