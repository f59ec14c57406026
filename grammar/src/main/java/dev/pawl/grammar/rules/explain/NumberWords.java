package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.RuleBook;

/** Numbers and members of enumerations in plain words. */
final class NumberWords implements NumExpr.Visitor<String>, EnumExpr.Visitor<String> {

  private final RuleBook book;
  private final ConditionWords conditions;

  NumberWords(RuleBook book, ConditionWords conditions) {
    this.book = book;
    this.conditions = conditions;
  }

  String comparison(BoolExpr.Compare compare) {
    return comparison(compare, words(compare.comparison()));
  }

  /** The negation of a comparison. */
  String opposite(BoolExpr.Compare compare) {
    return comparison(compare, words(compare.comparison().negated()));
  }

  private String comparison(BoolExpr.Compare compare, String verb) {
    return beside(compare.left(), compare.right(), compare.dimension()) + " " + verb + " "
        + beside(compare.right(), compare.left(), compare.dimension());
  }

  private static String words(Comparison comparison) {
    return switch (comparison) {
      case EQUAL -> "is";
      case NOT_EQUAL -> "is not";
      case LESS -> "is less than";
      case AT_MOST -> "is at most";
      case GREATER -> "is more than";
      case AT_LEAST -> "is at least";
    };
  }

  private String beside(NumExpr number, NumExpr other, Dimension dimension) {
    return number instanceof NumExpr.Constant constant ? Quantities.beside(constant.value(), other, dimension, book)
        : say(number);
  }

  String say(NumExpr number) {
    return number.accept(this);
  }

  @Override public String visit(NumExpr.Constant e) { return Quantities.number(e.value()); }
  @Override public String visit(NumExpr.Signal e) { return book.signals().get(e.signal()).name(); }
  @Override public String visit(NumExpr.Negate e) { return "minus " + say(e.operand()); }

  @Override
  public String visit(NumExpr.Arithmetic e) {
    return "(" + say(e.left()) + " " + e.operator().symbol() + " " + say(e.right()) + ")";
  }

  @Override
  public String visit(NumExpr.CountInLast e) {
    return "the number of times" + lately(e.duration()) + " that " + conditions.event(e.event());
  }

  @Override
  public String visit(NumExpr.CountSince e) {
    return "the number of times that " + conditions.event(e.event()) + ", counted from when "
        + conditions.event(e.anchor()) + ",";
  }

  @Override public String visit(NumExpr.TimeSince e) { return "the time since " + conditions.event(e.event()); }

  @Override
  public String visit(NumExpr.Extreme e) {
    return "the " + (e.greatest() ? "greatest" : "least") + " value of " + say(e.operand()) + lately(e.duration());
  }

  @Override
  public String visit(NumExpr.Mean e) {
    return "the mean of " + say(e.operand()) + " over the last " + Quantities.duration(e.duration());
  }

  @Override public String visit(NumExpr.Rate e) { return "the change per second of " + say(e.operand()); }
  @Override public String visit(NumExpr.Previous e) {
    return "the value before its last change of " + say(e.operand());
  }

  @Override
  public String visit(NumExpr.PassingSpeed e) {
    return "the speed of passing from (" + conditions.say(e.from()) + ") to (" + conditions.say(e.to()) + "), "
        + Quantities.number(e.distance()) + " m apart,";
  }

  @Override public String visit(NumExpr.Trains e) {
    return "the number of trains in zone " + book.zones().get(e.zone()).name();
  }

  @Override public String visit(EnumExpr.Literal e) { return "member " + e.index(); }
  @Override public String visit(EnumExpr.Signal e) { return book.signals().get(e.signal()).name(); }
  @Override public String visit(EnumExpr.Previous e) {
    return "the value before its last change of " + e.operand().accept(this);
  }

  private static String lately(long duration) {
    return " in the last " + Quantities.duration(duration);
  }

  String say(BoolExpr.EnumEquals equal, boolean negated) {
    return member(equal.left(), equal.right()) + (negated ? " is not " : " is ") + member(equal.right(), equal.left());
  }

  String say(EnumExpr member) {
    return member.accept(this);
  }

  private String member(EnumExpr member, EnumExpr other) {
    return member instanceof EnumExpr.Literal literal ? Quantities.member(literal, other, book)
        .orElseGet(() -> say(member))
        : say(member);
  }
}
