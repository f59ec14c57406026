package dev.pawl.grammar.logic.model;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;

/** A computation that yields a single value. */
public sealed interface Value extends Code {

  LogicType type();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Constant e);
    R visit(Text e);
    R visit(Load e);
    R visit(Negate e);
    R visit(Complement e);
    R visit(Arithmetic e);
    R visit(Compare e);
    R visit(Logic e);
    R visit(Convert e);
    R visit(Bounded e);
    R visit(Part e);
    R visit(Standard e);
    R visit(Call e);
  }

  /** A question to which most records have one answer. */
  interface Question<R> extends Visitor<R> {
    R otherwise(Value e);

    @Override default R visit(Constant e) { return otherwise(e); }
    @Override default R visit(Text e) { return otherwise(e); }
    @Override default R visit(Load e) { return otherwise(e); }
    @Override default R visit(Negate e) { return otherwise(e); }
    @Override default R visit(Complement e) { return otherwise(e); }
    @Override default R visit(Arithmetic e) { return otherwise(e); }
    @Override default R visit(Compare e) { return otherwise(e); }
    @Override default R visit(Logic e) { return otherwise(e); }
    @Override default R visit(Convert e) { return otherwise(e); }
    @Override default R visit(Bounded e) { return otherwise(e); }
    @Override default R visit(Part e) { return otherwise(e); }
    @Override default R visit(Standard e) { return otherwise(e); }
    @Override default R visit(Call e) { return otherwise(e); }
  }

  /** A word in the form {@link Elementary} describes. */
  record Constant(long word, LogicType type) implements Value {
    @Override public List<Code> parts() { return List.of(); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Text(String text, LogicType type) implements Value {
    @Override public List<Code> parts() { return List.of(); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Load(Place place) implements Value {
    @Override
    public LogicType type() {
      return place.type();
    }

    @Override public List<Code> parts() { return List.of(place); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Negate(Value operand, Elementary type, Position position) implements Value {
    @Override public List<Code> parts() { return List.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** NOT of a truth value or of a bit string. */
  record Complement(Value operand, Elementary type) implements Value {
    @Override public List<Code> parts() { return List.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Arithmetic(Operator operator, Value left, Value right, Elementary type, Position position) implements Value {
    @Override public List<Code> parts() { return List.of(left, right); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Arithmetic of numbers; TIME values add and subtract as well. */
  enum Operator {
    ADD,
    SUBTRACT,
    MULTIPLY,
    DIVIDE,
    MODULO
  }

  /** A comparison; both operands are of one type. */
  record Compare(Relation relation, Value left, Value right) implements Value {
    @Override
    public LogicType type() {
      return Elementary.BOOL;
    }

    @Override public List<Code> parts() { return List.of(left, right); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** The six relations. */
  enum Relation {
    LESS,
    AT_MOST,
    EQUAL,
    NOT_EQUAL,
    AT_LEAST,
    GREATER
  }

  record Logic(Connective connective, Value left, Value right, Elementary type) implements Value {
    @Override public List<Code> parts() { return List.of(left, right); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** The connectives of truth values and bit strings. */
  enum Connective {
    AND,
    OR,
    XOR,
    /** The right operand is evaluated only where the left is true, whatever the choice for AND is. */
    AND_THEN,
    /** The right operand is evaluated only where the left is false. */
    OR_ELSE;

    public boolean either() {
      return this == OR || this == OR_ELSE;
    }

    /** Whether the right operand must not be evaluated where it decides nothing. */
    public boolean skips() {
      return this == AND_THEN || this == OR_ELSE;
    }
  }

  /**
   * A change of type among numbers, bit strings and truth values.
   *
   * @param truncate whether a real loses its fraction instead of being rounded to the nearest even
   */
  record Convert(Value operand, Elementary from, Elementary type, boolean truncate, Position position)
      implements Value {
    @Override public List<Code> parts() { return List.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A value that must lie in a subrange; it is a run-time error if it does not. */
  record Bounded(Value operand, long low, long high, LogicType type, Position position) implements Value {
    @Override public List<Code> parts() { return List.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Bits {@code shift} to {@code shift + type.bits() - 1} of a bit string. */
  record Part(Value operand, int shift, Elementary type) implements Value {
    @Override public List<Code> parts() { return List.of(operand); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Standard(Operation operation, List<Value> operands, LogicType type, Position position) implements Value {
    public Standard {
      operands = List.copyOf(operands);
    }

    @Override public List<Code> parts() { return List.copyOf(operands); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * A call of a function written by the user.
   *
   * @param function number of the function among the program's units
   * @param inputs values for single-slot parameters
   * @param passes arrays and structures to copy in, and addresses to pass, after the values
   * @param after what to do with the outputs once it has run
   * @param result the slot that holds the result
   */
  record Call(int function, List<InputValue> inputs, List<Step> passes, List<Step> after, Place result,
      Position position) implements Value {
    public Call {
      inputs = List.copyOf(inputs);
      passes = List.copyOf(passes);
      after = List.copyOf(after);
    }

    @Override
    public LogicType type() {
      return result.type();
    }

    @Override
    public List<Code> parts() {
      List<Code> parts = new ArrayList<>();
      inputs.forEach(input -> parts.add(input.value()));
      parts.addAll(passes);
      parts.addAll(after);
      return parts;
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record InputValue(Place parameter, Value value) {}
}
