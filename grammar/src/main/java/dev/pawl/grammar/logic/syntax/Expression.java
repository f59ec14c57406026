package dev.pawl.grammar.logic.syntax;

import dev.pawl.grammar.source.Position;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.Optional;

/** An expression as written. Literals carry the type word before their {@code #}, where there is one. */
public sealed interface Expression {

  Position position();

  record IntegerLiteral(Optional<Name> type, BigInteger value, Position position) implements Expression {}

  record RealLiteral(Optional<Name> type, BigDecimal value, Position position) implements Expression {}

  record BooleanLiteral(boolean value, Position position) implements Expression {}

  record StringLiteral(Optional<Name> type, boolean wide, String value, Position position) implements Expression {}

  /**
   * A duration, date, time of day or date and time.
   *
   * @param type the full name of its type, such as {@code LTIME} or {@code DATE_AND_TIME}
   * @param nanoseconds its length, or its distance from 1970-01-01 or from midnight
   */
  record TimeLiteral(String type, long nanoseconds, Position position) implements Expression {}

  /** {@code TYPE#NAME}: an enumeration member, or BOOL#TRUE. */
  record QualifiedName(Name type, Name member, Position position) implements Expression {}

  record NameReference(Name name) implements Expression {
    @Override
    public Position position() {
      return name.position();
    }
  }

  record DirectReference(Name address) implements Expression {
    @Override
    public Position position() {
      return address.position();
    }
  }

  record Member(Expression owner, Name name) implements Expression {
    @Override
    public Position position() {
      return name.position();
    }
  }

  /**
   * {@code owner.%X3}: a piece of a bit string.
   *
   * @param width bits in the piece: 1, 8, 16 or 32
   * @param index which piece, from the least significant
   */
  record Part(Expression owner, int width, int index, Position position) implements Expression {}

  record Indexed(Expression owner, List<Expression> indices, Position position) implements Expression {
    public Indexed {
      indices = List.copyOf(indices);
    }
  }

  record Call(Expression callee, List<Argument> arguments, Position position) implements Expression {
    public Call {
      arguments = List.copyOf(arguments);
    }
  }

  record Unary(UnaryOperator operator, Expression operand, Position position) implements Expression {}

  /** The place of a binary expression is its operator's. */
  record Binary(BinaryOperator operator, Expression left, Expression right, Position position) implements Expression {}

  /** An argument of a call. */
  sealed interface Argument {}

  record Positional(Expression value) implements Argument {}

  record Input(Name parameter, Expression value) implements Argument {}

  record Output(Name parameter, boolean negated, Optional<Expression> target) implements Argument {}

  /** Operators with one operand. */
  enum UnaryOperator {
    PLUS("+"),
    MINUS("-"),
    NOT("NOT");

    private final String symbol;

    UnaryOperator(String symbol) {
      this.symbol = symbol;
    }

    public String symbol() {
      return symbol;
    }
  }

  /** Operators with two operands. */
  enum BinaryOperator {
    POWER("**"),
    MULTIPLY("*"),
    DIVIDE("/"),
    MODULO("MOD"),
    ADD("+"),
    SUBTRACT("-"),
    LESS("<"),
    GREATER(">"),
    AT_MOST("<="),
    AT_LEAST(">="),
    EQUAL("="),
    NOT_EQUAL("<>"),
    AND("AND"),
    XOR("XOR"),
    OR("OR");

    private final String symbol;

    BinaryOperator(String symbol) {
      this.symbol = symbol;
    }

    public String symbol() {
      return symbol;
    }
  }
}
