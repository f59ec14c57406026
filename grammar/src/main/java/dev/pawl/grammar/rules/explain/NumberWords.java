package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.Optional;

/** Numbers and members of enumerations in plain words. */
final class NumberWords {

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
    if (number instanceof NumExpr.Constant constant) {
      return Quantities.number(constant.value());
    }
    if (number instanceof NumExpr.Signal signal) {
      return book.signals().get(signal.signal()).name();
    }
    if (number instanceof NumExpr.Negate negate) {
      return "minus " + say(negate.operand());
    }
    if (number instanceof NumExpr.Arithmetic arithmetic) {
      return "(" + say(arithmetic.left()) + " " + arithmetic.operator().symbol() + " " + say(arithmetic.right()) + ")";
    }
    if (number instanceof NumExpr.CountInLast count) {
      return "the number of times in the last " + Quantities.duration(count.duration()) + " that "
          + conditions.event(count.event());
    }
    if (number instanceof NumExpr.CountSince count) {
      return "the number of times that " + conditions.event(count.event()) + ", counted from when "
          + conditions.event(count.anchor()) + ",";
    }
    if (number instanceof NumExpr.TimeSince since) {
      return "the time since " + conditions.event(since.event());
    }
    return window(number);
  }

  private String window(NumExpr number) {
    if (number instanceof NumExpr.Extreme extreme) {
      return "the " + (extreme.greatest() ? "greatest" : "least") + " value of " + say(extreme.operand()) + " in the last "
          + Quantities.duration(extreme.duration());
    }
    if (number instanceof NumExpr.Mean mean) {
      return "the mean of " + say(mean.operand()) + " over the last " + Quantities.duration(mean.duration());
    }
    if (number instanceof NumExpr.Rate rate) {
      return "the change per second of " + say(rate.operand());
    }
    if (number instanceof NumExpr.Previous previous) {
      return "the value before its last change of " + say(previous.operand());
    }
    if (number instanceof NumExpr.PassingSpeed speed) {
      return "the speed of passing from (" + conditions.say(speed.from()) + ") to (" + conditions.say(speed.to()) + "), "
          + Quantities.number(speed.distance()) + " m apart,";
    }
    return "the number of trains in zone " + book.zones().get(((NumExpr.Trains) number).zone()).name();
  }

  String say(BoolExpr.EnumEquals equal, boolean negated) {
    return member(equal.left(), equal.right()) + (negated ? " is not " : " is ") + member(equal.right(), equal.left());
  }

  String member(EnumExpr member, EnumExpr other) {
    if (member instanceof EnumExpr.Literal literal) {
      return type(other).map(type -> type.names().get(literal.index())).orElse("member " + literal.index());
    }
    if (member instanceof EnumExpr.Signal signal) {
      return book.signals().get(signal.signal()).name();
    }
    return "the value before its last change of " + member(((EnumExpr.Previous) member).operand(), other);
  }

  private Optional<ValueType.Enumeration> type(EnumExpr member) {
    if (member instanceof EnumExpr.Previous previous) {
      return type(previous.operand());
    }
    return member instanceof EnumExpr.Signal signal
        && book.signals().get(signal.signal()).type() instanceof ValueType.Enumeration type
        ? Optional.of(type) : Optional.empty();
  }
}
