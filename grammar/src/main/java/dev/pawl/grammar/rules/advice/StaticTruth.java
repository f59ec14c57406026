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
 * Finds conditions that no trace can make true. Sound but not complete: what is said to be never true is never true; of
 * much that is never true nothing is said.
 */
public final class StaticTruth {

  private StaticTruth() {}

  /** Whether no trace with known values makes it false. */
  public static boolean isAlwaysTrue(BoolExpr condition) {
    return isNeverTrue(negated(condition));
  }

  /** Whether no trace makes it true. */
  public static boolean isNeverTrue(BoolExpr condition) {
    return condition.accept(NEVER_TRUE);
  }

  private static final BoolExpr.Question<Boolean> NEVER_TRUE = new BoolExpr.Question<>() {
    @Override public Boolean otherwise(BoolExpr e) { return false; }
    @Override public Boolean visit(BoolExpr.Constant e) { return !e.value(); }
    @Override public Boolean visit(BoolExpr.Compare e) { return isFalseByNumbers(e); }
    @Override public Boolean visit(BoolExpr.HeldFor e) { return isMomentary(e.operand()) || isNeverTrue(e.operand()); }
    @Override public Boolean visit(BoolExpr.InLast e) { return isNeverTrue(e.operand()); }
    @Override public Boolean visit(BoolExpr.Since e) { return isNeverTrue(e.anchor()); }
    @Override public Boolean visit(BoolExpr.Rises e) { return isNeverTrue(e.operand()) || isAlwaysTrue(e.operand()); }
    @Override public Boolean visit(BoolExpr.Falls e) { return isNeverTrue(e.operand()) || isAlwaysTrue(e.operand()); }
    @Override public Boolean visit(BoolExpr.Or e) { return isNeverTrue(e.left()) && isNeverTrue(e.right()); }

    @Override
    public Boolean visit(BoolExpr.And e) {
      List<BoolExpr> conjuncts = new ArrayList<>();
      flatten(e, conjuncts);
      return conjuncts.stream().anyMatch(StaticTruth::isNeverTrue) || clash(conjuncts);
    }

    @Override
    public Boolean visit(BoolExpr.Not e) {
      return !negated(e.operand()).equals(e) && isNeverTrue(negated(e.operand()));
    }

    @Override
    public Boolean visit(BoolExpr.EnumEquals e) {
      return e.left() instanceof EnumExpr.Literal && e.right() instanceof EnumExpr.Literal && !e.left()
          .equals(e.right());
    }
  };

  private static boolean isFalseByNumbers(BoolExpr.Compare compare) {
    if (compare.left() instanceof NumExpr.Constant left && compare.right() instanceof NumExpr.Constant right) {
      return !compare.comparison().holds(left.value(), right.value());
    }
    return Bounds.of(compare).map(bounds -> bounds.isEmptyFor(compare)).orElse(false);
  }

  /** Whether it is true at single instants only. */
  public static boolean isMomentary(BoolExpr condition) {
    return condition.accept(MOMENTARY);
  }

  private static final BoolExpr.Question<Boolean> MOMENTARY = new BoolExpr.Question<>() {
    @Override public Boolean otherwise(BoolExpr e) { return e instanceof BoolExpr.Moment; }
    @Override public Boolean visit(BoolExpr.And e) { return isMomentary(e.left()) || isMomentary(e.right()); }
    @Override public Boolean visit(BoolExpr.Or e) { return isMomentary(e.left()) && isMomentary(e.right()); }
  };

  /** The negation, pushed inwards one step where that helps. */
  static BoolExpr negated(BoolExpr condition) {
    return condition.accept(NEGATION);
  }

  private static final BoolExpr.Question<BoolExpr> NEGATION = new BoolExpr.Question<>() {
    @Override public BoolExpr otherwise(BoolExpr e) { return new BoolExpr.Not(e); }
    @Override public BoolExpr visit(BoolExpr.Not e) { return e.operand(); }
    @Override public BoolExpr visit(BoolExpr.Constant e) { return new BoolExpr.Constant(!e.value()); }
    @Override public BoolExpr visit(BoolExpr.And e) { return new BoolExpr.Or(negated(e.left()), negated(e.right())); }
    @Override public BoolExpr visit(BoolExpr.Or e) { return new BoolExpr.And(negated(e.left()), negated(e.right())); }
    @Override public BoolExpr visit(BoolExpr.Compare e) { return e.negated(); }
  };

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
