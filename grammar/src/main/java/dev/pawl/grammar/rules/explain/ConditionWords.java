package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.advice.StaticTruth;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.RuleBook;

/** Conditions in plain words. */
final class ConditionWords implements BoolExpr.Visitor<String> {

  private final RuleBook book;
  private final NumberWords numbers;
  private final Negation negation = new Negation();

  ConditionWords(RuleBook book) {
    this.book = book;
    this.numbers = new NumberWords(book, this);
  }

  /** A condition as a clause with a verb. */
  String say(BoolExpr condition) {
    return condition.accept(this);
  }

  @Override public String visit(BoolExpr.Constant e) {
    return e.value() ? "nothing is asked" : "the impossible happens";
  }
  @Override public String visit(BoolExpr.Signal e) { return signal(e) + " is true"; }
  @Override public String visit(BoolExpr.Not e) { return e.operand().accept(negation); }

  @Override
  public String visit(BoolExpr.And e) {
    return (e.left() instanceof BoolExpr.And ? say(e.left()) : group(e.left())) + " and " + group(e.right());
  }

  @Override public String visit(BoolExpr.Or e) { return implication(e); }
  @Override public String visit(BoolExpr.Same e) { return group(e.left()) + " exactly when " + group(e.right()); }
  @Override public String visit(BoolExpr.Compare e) { return numbers.comparison(e); }
  @Override public String visit(BoolExpr.EnumEquals e) { return numbers.say(e, false); }

  @Override
  public String visit(BoolExpr.HeldFor e) {
    return group(e.operand()) + " for " + Quantities.duration(e.duration()) + " without a break";
  }

  @Override
  public String visit(BoolExpr.InLast e) {
    return group(e.operand()) + " at some time in the last " + Quantities.duration(e.duration());
  }

  @Override public String visit(BoolExpr.Since e) {
    return group(e.operand()) + " without a break since " + event(e.anchor());
  }
  @Override public String visit(BoolExpr.Rises e) { return becomes(e.operand(), true); }
  @Override public String visit(BoolExpr.Falls e) { return becomes(e.operand(), false); }
  @Override public String visit(BoolExpr.BoolChanges e) { return "the truth of (" + say(e.operand()) + ") changes"; }
  @Override public String visit(BoolExpr.NumChanges e) { return numbers.say(e.operand()) + " changes"; }
  @Override public String visit(BoolExpr.EnumChanges e) { return numbers.say(e.operand()) + " changes"; }
  @Override public String visit(BoolExpr.Previous e) {
    return "before its last change it was true that " + say(e.operand());
  }
  @Override public String visit(BoolExpr.TraceStart e) { return "the trace starts"; }
  @Override public String visit(BoolExpr.TraceEnd e) { return "the trace ends"; }
  @Override public String visit(BoolExpr.Occupied e) { return "zone " + name(e.zone()) + " is occupied"; }
  @Override public String visit(BoolExpr.Enters e) { return "a train enters zone " + name(e.zone()); }
  @Override public String visit(BoolExpr.Leaves e) { return "a train leaves zone " + name(e.zone()); }
  @Override public String visit(BoolExpr.BacksOut e) { return "a train backs out of zone " + name(e.zone()); }
  @Override public String visit(BoolExpr.Miscounts e) { return "the count of zone " + name(e.zone()) + " goes wrong"; }

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

  /** The negation of a condition, in words of its own where it has some. */
  private final class Negation implements BoolExpr.Question<String> {
    @Override public String otherwise(BoolExpr e) { return "it is not so that " + group(e); }
    @Override public String visit(BoolExpr.Signal e) { return signal(e) + " is false"; }
    @Override public String visit(BoolExpr.Occupied e) { return "zone " + name(e.zone()) + " is not occupied"; }
    @Override public String visit(BoolExpr.EnumEquals e) { return numbers.say(e, true); }
    @Override public String visit(BoolExpr.Or e) { return "neither " + group(e.left()) + " nor " + group(e.right()); }
    @Override public String visit(BoolExpr.Compare e) { return numbers.opposite(e); }
    @Override public String visit(BoolExpr.Enters e) { return "no train enters zone " + name(e.zone()); }
    @Override public String visit(BoolExpr.Leaves e) { return "no train leaves zone " + name(e.zone()); }
    @Override public String visit(BoolExpr.BacksOut e) { return "no train backs out of zone " + name(e.zone()); }
    @Override public String visit(BoolExpr.Miscounts e) {
      return "the count of zone " + name(e.zone()) + " does not go wrong";
    }
    @Override public String visit(BoolExpr.Rises e) { return becomesNot(e, e.operand(), true); }
    @Override public String visit(BoolExpr.Falls e) { return becomesNot(e, e.operand(), false); }

    private String becomesNot(BoolExpr edge, BoolExpr operand, boolean value) {
      return operand instanceof BoolExpr.Signal signal ? signal(signal) + " does not become " + value : otherwise(edge);
    }
  }

  private String implication(BoolExpr.Or or) {
    return or.left() instanceof BoolExpr.Not not && !(not.operand() instanceof BoolExpr.Signal)
        ? "if " + group(not.operand()) + " then " + group(or.right())
        : (or.left() instanceof BoolExpr.Or ? say(or.left()) : group(or.left())) + " or " + group(or.right());
  }

  private String group(BoolExpr condition) {
    return condition.accept(JOINED) ? "(" + say(condition) + ")" : say(condition);
  }

  /** Whether its words could be taken apart wrongly beside others. */
  private static final BoolExpr.Question<Boolean> JOINED = new BoolExpr.Question<>() {
    @Override public Boolean otherwise(BoolExpr e) { return false; }
    @Override public Boolean visit(BoolExpr.And e) { return true; }
    @Override public Boolean visit(BoolExpr.Or e) { return true; }
    @Override public Boolean visit(BoolExpr.HeldFor e) { return true; }
    @Override public Boolean visit(BoolExpr.InLast e) { return true; }
    @Override public Boolean visit(BoolExpr.Since e) { return true; }
    @Override public Boolean visit(BoolExpr.Same e) { return true; }
    @Override public Boolean visit(BoolExpr.Not e) { return e.operand() instanceof BoolExpr.Or; }
  };

  private String signal(BoolExpr.Signal signal) {
    return book.signals().get(signal.signal()).name();
  }

  private String name(int zone) {
    return book.zones().get(zone).name();
  }
}
