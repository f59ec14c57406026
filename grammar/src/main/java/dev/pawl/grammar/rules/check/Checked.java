package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.OptionalDouble;
import java.util.function.Function;

/** An expression with its type, ready for the rule book. */
sealed interface Checked {

  /** The answer for the one it is. */
  <R> R match(Function<Condition, R> condition, Function<Amount, R> amount, Function<Choice, R> choice,
      Function<Place, R> place, Function<Failed, R> failed);

  Extent extent();

  default boolean isFailed() {
    return this instanceof Failed;
  }

  /** Something with a truth value. */
  record Condition(BoolExpr expression, Extent extent) implements Checked {
    @Override
    public <R> R match(Function<Condition, R> condition, Function<Amount, R> amount, Function<Choice, R> choice,
        Function<Place, R> place, Function<Failed, R> failed) {
      return condition.apply(this);
    }
  }

  /**
   * A number with its dimension.
   *
   * @param unit the unit to speak of it in, as written where its signal was declared
   * @param continuous whether it changes without events ({@code mean}, {@code time since})
   */
  record Amount(NumExpr expression, Dimension dimension, String unit, boolean continuous, Extent extent)
      implements Checked {

    OptionalDouble constant() {
      return expression instanceof NumExpr.Constant fixed ? OptionalDouble.of(fixed.value()) : OptionalDouble.empty();
    }

    @Override
    public <R> R match(Function<Condition, R> condition, Function<Amount, R> amount, Function<Choice, R> choice,
        Function<Place, R> place, Function<Failed, R> failed) {
      return amount.apply(this);
    }
  }

  /** A member of an enumeration. */
  record Choice(EnumExpr expression, ValueType.Enumeration type, Extent extent) implements Checked {
    @Override
    public <R> R match(Function<Condition, R> condition, Function<Amount, R> amount, Function<Choice, R> choice,
        Function<Place, R> place, Function<Failed, R> failed) {
      return choice.apply(this);
    }
  }

  /** A zone, which has no value of its own. */
  record Place(int zone) implements Checked {
    @Override
    public Extent extent() {
      return Extent.LEAF;
    }

    @Override
    public <R> R match(Function<Condition, R> condition, Function<Amount, R> amount, Function<Choice, R> choice,
        Function<Place, R> place, Function<Failed, R> failed) {
      return place.apply(this);
    }
  }

  /** Something wrong that has been told already. */
  record Failed() implements Checked {
    @Override
    public Extent extent() {
      return Extent.LEAF;
    }

    @Override
    public <R> R match(Function<Condition, R> condition, Function<Amount, R> amount, Function<Choice, R> choice,
        Function<Place, R> place, Function<Failed, R> failed) {
      return failed.apply(this);
    }
  }

  Checked FAILED = new Failed();

  /** The value of a signal. */
  static Checked of(Signal signal) {
    int index = signal.index();
    return of(signal.type(), index, new NumExpr.Signal(index));
  }

  /** The value of a parameter of a definition, which is checked before anybody gives it one. */
  static Checked placeholder(ValueType type) {
    return of(type, 0, new NumExpr.Constant(12.345678));
  }

  private static Checked of(ValueType type, int index, NumExpr number) {
    return type.match(
        bool -> new Condition(new BoolExpr.Signal(index), Extent.LEAF),
        enumeration -> new Choice(new EnumExpr.Signal(index), enumeration, Extent.LEAF),
        quantity -> new Amount(number, quantity.dimension(), quantity.unit(), false, Extent.LEAF));
  }
}
