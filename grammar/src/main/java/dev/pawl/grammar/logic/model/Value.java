package dev.pawl.grammar.logic.model;

import dev.pawl.grammar.source.Position;
import java.util.List;

/** A computation that yields a single value. */
public sealed interface Value {

  LogicType type();

  /** A word in the form {@link Elementary} describes. */
  record Constant(long word, LogicType type) implements Value {}

  record Text(String text, LogicType type) implements Value {}

  record Load(Place place) implements Value {
    @Override
    public LogicType type() {
      return place.type();
    }
  }

  record Negate(Value operand, Elementary type, Position position) implements Value {}

  /** NOT of a truth value or of a bit string. */
  record Complement(Value operand, Elementary type) implements Value {}

  record Arithmetic(Operator operator, Value left, Value right, Elementary type, Position position) implements Value {}

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

  record Logic(Connective connective, Value left, Value right, Elementary type) implements Value {}

  /** The connectives of truth values and bit strings. */
  enum Connective {
    AND,
    OR,
    XOR
  }

  /**
   * A change of type among numbers, bit strings and truth values.
   *
   * @param truncate whether a real loses its fraction instead of being rounded to the nearest even
   */
  record Convert(Value operand, Elementary from, Elementary type, boolean truncate, Position position) implements Value {}

  /** A value that must lie in a subrange; it is a run-time error if it does not. */
  record Bounded(Value operand, long low, long high, LogicType type, Position position) implements Value {}

  /** Bits {@code shift} to {@code shift + type.bits() - 1} of a bit string. */
  record Part(Value operand, int shift, Elementary type) implements Value {}

  record Standard(Operation operation, List<Value> operands, LogicType type, Position position) implements Value {
    public Standard {
      operands = List.copyOf(operands);
    }
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
  record Call(int function, List<InputValue> inputs, List<Step> passes, List<Step> after, Place result, Position position)
      implements Value {
    public Call {
      inputs = List.copyOf(inputs);
      passes = List.copyOf(passes);
      after = List.copyOf(after);
    }

    @Override
    public LogicType type() {
      return result.type();
    }
  }

  record InputValue(Place parameter, Value value) {}
}
