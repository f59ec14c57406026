package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.source.Position;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** What an expression turned out to be. */
sealed interface Operand {

  /** The answer for the one it is. */
  <R> R match(Function<Typed, R> typed, Function<Number, R> number, Function<Whole, R> whole, Function<Wrong, R> wrong);

  Position position();

  default boolean isWrong() {
    return this instanceof Wrong;
  }

  /** How messages speak of its type. */
  String typeName();

  /** A value with a type. */
  record Typed(Value value, Position position) implements Operand {
    LogicType type() {
      return value.type();
    }

    @Override
    public String typeName() {
      return type().name();
    }

    @Override
    public <R> R match(Function<Typed, R> typed, Function<Number, R> number, Function<Whole, R> whole,
        Function<Wrong, R> wrong) {
      return typed.apply(this);
    }
  }

  /** A number without a type of its own: it takes that of its surroundings. Computed exactly. */
  record Number(BigDecimal value, boolean whole, Position position) implements Operand {
    @Override
    public String typeName() {
      return whole ? "a whole number" : "a number with a fraction";
    }

    @Override
    public <R> R match(Function<Typed, R> typed, Function<Number, R> number, Function<Whole, R> whole,
        Function<Wrong, R> wrong) {
      return number.apply(this);
    }
  }

  /**
   * An array, a structure or a function block instance.
   *
   * @param made the call that puts it there, where it is the result of a function
   */
  record Whole(Place place, Optional<Value.Call> made, Position position) implements Operand {
    Whole(Place place, Position position) {
      this(place, Optional.empty(), position);
    }

    /** The steps that copy it to another place. */
    List<Step> copied(Place target, Position at) {
      List<Step> steps = new ArrayList<>();
      made.ifPresent(call -> steps.add(new Step.Evaluate(call, at)));
      steps.add(new Step.Copy(target, place, at));
      return steps;
    }

    @Override
    public String typeName() {
      return place.type().name();
    }

    @Override
    public <R> R match(Function<Typed, R> typed, Function<Number, R> number, Function<Whole, R> whole,
        Function<Wrong, R> wrong) {
      return whole.apply(this);
    }
  }

  /** Something wrong that has been reported. */
  record Wrong(Position position) implements Operand {
    @Override
    public String typeName() {
      return "unknown";
    }

    @Override
    public <R> R match(Function<Typed, R> typed, Function<Number, R> number, Function<Whole, R> whole,
        Function<Wrong, R> wrong) {
      return wrong.apply(this);
    }
  }
}
