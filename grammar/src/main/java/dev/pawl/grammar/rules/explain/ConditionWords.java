package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.advice.StaticTruth;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.RuleBook;

/** Conditions in plain words. */
final class ConditionWords {

  private final RuleBook book;
  private final NumberWords numbers;

  ConditionWords(RuleBook book) {
    this.book = book;
    this.numbers = new NumberWords(book, this);
  }

  /** A condition as a clause with a verb. */
  String say(BoolExpr condition) {
    if (condition instanceof BoolExpr.Constant constant) {
      return constant.value() ? "nothing is asked" : "the impossible happens";
    }
    if (condition instanceof BoolExpr.Signal signal) {
      return signal(signal) + " is true";
    }
    if (condition instanceof BoolExpr.Not not) {
      return negated(not.operand());
    }
    if (condition instanceof BoolExpr.And and) {
      return (and.left() instanceof BoolExpr.And ? say(and.left()) : group(and.left())) + " and " + group(and.right());
    }
    if (condition instanceof BoolExpr.Or or) {
      return implication(or);
    }
    if (condition instanceof BoolExpr.Same same) {
      return group(same.left()) + " exactly when " + group(same.right());
    }
    if (condition instanceof BoolExpr.Compare compare) {
      return numbers.comparison(compare);
    }
    if (condition instanceof BoolExpr.EnumEquals equal) {
      return numbers.say(equal, false);
    }
    if (condition instanceof BoolExpr.HeldFor held) {
      return group(held.operand()) + " for " + Quantities.duration(held.duration()) + " without a break";
    }
    if (condition instanceof BoolExpr.InLast inLast) {
      return group(inLast.operand()) + " at some time in the last " + Quantities.duration(inLast.duration());
    }
    if (condition instanceof BoolExpr.Since since) {
      return group(since.operand()) + " without a break since " + event(since.anchor());
    }
    return momentary(condition);
  }

  private String momentary(BoolExpr condition) {
    if (condition instanceof BoolExpr.Rises rises) {
      return becomes(rises.operand(), true);
    }
    if (condition instanceof BoolExpr.Falls falls) {
      return becomes(falls.operand(), false);
    }
    if (condition instanceof BoolExpr.BoolChanges changes) {
      return "the truth of (" + say(changes.operand()) + ") changes";
    }
    if (condition instanceof BoolExpr.NumChanges changes) {
      return numbers.say(changes.operand()) + " changes";
    }
    if (condition instanceof BoolExpr.EnumChanges changes) {
      return numbers.member(changes.operand(), changes.operand()) + " changes";
    }
    if (condition instanceof BoolExpr.Previous previous) {
      return "before its last change it was true that " + say(previous.operand());
    }
    if (condition instanceof BoolExpr.TraceStart) {
      return "the trace starts";
    }
    return condition instanceof BoolExpr.TraceEnd ? "the trace ends" : zone(condition);
  }

  private String zone(BoolExpr condition) {
    if (condition instanceof BoolExpr.Occupied occupied) {
      return "zone " + name(occupied.zone()) + " is occupied";
    }
    if (condition instanceof BoolExpr.Enters enters) {
      return "a train enters zone " + name(enters.zone());
    }
    if (condition instanceof BoolExpr.Leaves leaves) {
      return "a train leaves zone " + name(leaves.zone());
    }
    if (condition instanceof BoolExpr.BacksOut backsOut) {
      return "a train backs out of zone " + name(backsOut.zone());
    }
    return "the count of zone " + name(((BoolExpr.Miscounts) condition).zone()) + " goes wrong";
  }

  /** A condition as something that happens: what stays true happens when it becomes true. */
  String event(BoolExpr condition) {
    boolean happens = StaticTruth.isMomentary(condition);
    return happens ? say(condition) : becomes(condition, true);
  }

  private String becomes(BoolExpr condition, boolean value) {
    if (condition instanceof BoolExpr.Signal signal) {
      return signal(signal) + " becomes " + value;
    }
    if (condition instanceof BoolExpr.Not not) {
      return becomes(not.operand(), !value);
    }
    return "it becomes " + (value ? "" : "un") + "true that " + group(condition);
  }

  private String negated(BoolExpr operand) {
    if (operand instanceof BoolExpr.Signal signal) {
      return signal(signal) + " is false";
    }
    if (operand instanceof BoolExpr.Occupied occupied) {
      return "zone " + name(occupied.zone()) + " is not occupied";
    }
    if (operand instanceof BoolExpr.EnumEquals equal) {
      return numbers.say(equal, true);
    }
    if (operand instanceof BoolExpr.Or or) {
      return "neither " + group(or.left()) + " nor " + group(or.right());
    }
    if (operand instanceof BoolExpr.Compare compare) {
      return numbers.opposite(compare);
    }
    return negatedEvent(operand);
  }

  private String negatedEvent(BoolExpr operand) {
    if (operand instanceof BoolExpr.Enters enters) {
      return "no train enters zone " + name(enters.zone());
    }
    if (operand instanceof BoolExpr.Leaves leaves) {
      return "no train leaves zone " + name(leaves.zone());
    }
    if (operand instanceof BoolExpr.BacksOut backsOut) {
      return "no train backs out of zone " + name(backsOut.zone());
    }
    if (operand instanceof BoolExpr.Miscounts miscounts) {
      return "the count of zone " + name(miscounts.zone()) + " does not go wrong";
    }
    if (operand instanceof BoolExpr.Rises rises && rises.operand() instanceof BoolExpr.Signal signal) {
      return signal(signal) + " does not become true";
    }
    if (operand instanceof BoolExpr.Falls falls && falls.operand() instanceof BoolExpr.Signal signal) {
      return signal(signal) + " does not become false";
    }
    return "it is not so that " + group(operand);
  }

  private String implication(BoolExpr.Or or) {
    return or.left() instanceof BoolExpr.Not not && !(not.operand() instanceof BoolExpr.Signal)
        ? "if " + group(not.operand()) + " then " + group(or.right())
        : (or.left() instanceof BoolExpr.Or ? say(or.left()) : group(or.left())) + " or " + group(or.right());
  }

  private String group(BoolExpr condition) {
    boolean joined = condition instanceof BoolExpr.And || condition instanceof BoolExpr.Or
        || condition instanceof BoolExpr.HeldFor
        || condition instanceof BoolExpr.InLast || condition instanceof BoolExpr.Since || condition instanceof BoolExpr.Same
        || condition instanceof BoolExpr.Not not && not.operand() instanceof BoolExpr.Or;
    return joined ? "(" + say(condition) + ")" : say(condition);
  }

  private String signal(BoolExpr.Signal signal) {
    return book.signals().get(signal.signal()).name();
  }

  private String name(int zone) {
    return book.zones().get(zone).name();
  }
}
