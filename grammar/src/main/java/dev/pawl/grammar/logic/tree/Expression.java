package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** An expression as written. Literals carry the type word before their {@code #}, where there is one. */
public sealed interface Expression {

  Position position();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(IntegerLiteral e);
    R visit(RealLiteral e);
    R visit(BooleanLiteral e);
    R visit(StringLiteral e);
    R visit(TimeLiteral e);
    R visit(QualifiedName e);
    R visit(NameReference e);
    R visit(DirectReference e);
    R visit(Member e);
    R visit(Part e);
    R visit(Indexed e);
    R visit(Call e);
    R visit(Unary e);
    R visit(Binary e);
    R visit(Required e);
  }

  /** A question to which most records have one answer. */
  interface Question<R> extends Visitor<R> {
    R otherwise(Expression e);

    @Override default R visit(IntegerLiteral e) { return otherwise(e); }
    @Override default R visit(RealLiteral e) { return otherwise(e); }
    @Override default R visit(BooleanLiteral e) { return otherwise(e); }
    @Override default R visit(StringLiteral e) { return otherwise(e); }
    @Override default R visit(TimeLiteral e) { return otherwise(e); }
    @Override default R visit(QualifiedName e) { return otherwise(e); }
    @Override default R visit(NameReference e) { return otherwise(e); }
    @Override default R visit(DirectReference e) { return otherwise(e); }
    @Override default R visit(Member e) { return otherwise(e); }
    @Override default R visit(Part e) { return otherwise(e); }
    @Override default R visit(Indexed e) { return otherwise(e); }
    @Override default R visit(Call e) { return otherwise(e); }
    @Override default R visit(Unary e) { return otherwise(e); }
    @Override default R visit(Binary e) { return otherwise(e); }
    @Override default R visit(Required e) { return otherwise(e); }
  }

  record IntegerLiteral(Optional<Name> type, BigInteger value, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record RealLiteral(Optional<Name> type, BigDecimal value, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record BooleanLiteral(boolean value, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record StringLiteral(Optional<Name> type, boolean wide, String value, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * A duration, date, time of day or date and time.
   *
   * @param type the full name of its type, such as {@code LTIME} or {@code DATE_AND_TIME}
   * @param nanoseconds its length, or its distance from 1970-01-01 or from midnight
   */
  record TimeLiteral(String type, long nanoseconds, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code TYPE#NAME}: an enumeration member, or BOOL#TRUE. */
  record QualifiedName(Name type, Name member, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * What has to be of one type, whatever stands around it.
   *
   * @param type the name of an elementary type
   * @param what messages call it, such as {@code the variable of a contact}
   */
  record Required(Expression operand, String type, String what) implements Expression {
    @Override
    public Position position() {
      return operand.position();
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record NameReference(Name name) implements Expression {
    @Override
    public Position position() {
      return name.position();
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record DirectReference(Name address) implements Expression {
    @Override
    public Position position() {
      return address.position();
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Member(Expression owner, Name name) implements Expression {
    @Override
    public Position position() {
      return name.position();
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * {@code owner.%X3}: a piece of a bit string.
   *
   * @param width bits in the piece: 1, 8, 16 or 32
   * @param index which piece, from the least significant
   */
  record Part(Expression owner, int width, int index, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Indexed(Expression owner, List<Expression> indices, Position position) implements Expression {
    public Indexed {
      indices = List.copyOf(indices);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Call(Expression callee, List<Argument> arguments, Position position) implements Expression {
    public Call {
      arguments = List.copyOf(arguments);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Unary(UnaryOperator operator, Expression operand, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** The place of a binary expression is its operator's. */
  record Binary(BinaryOperator operator, Expression left, Expression right, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** An argument of a call. */
  sealed interface Argument {

    /** The answer for the one it is. */
    <R> R match(Function<Positional, R> positional, Function<Input, R> input, Function<Output, R> output);
  }

  record Positional(Expression value) implements Argument {
    @Override
    public <R> R match(Function<Positional, R> positional, Function<Input, R> input, Function<Output, R> output) {
      return positional.apply(this);
    }
  }

  record Input(Name parameter, Expression value) implements Argument {
    @Override
    public <R> R match(Function<Positional, R> positional, Function<Input, R> input, Function<Output, R> output) {
      return input.apply(this);
    }
  }

  record Output(Name parameter, boolean negated, Optional<Expression> target) implements Argument {
    @Override
    public <R> R match(Function<Positional, R> positional, Function<Input, R> input, Function<Output, R> output) {
      return output.apply(this);
    }
  }

  /** Operators with one operand. */
  enum UnaryOperator {
    PLUS,
    MINUS,
    NOT
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
    OR("OR"),
    AND_THEN("AND_THEN"),
    OR_ELSE("OR_ELSE");

    private final String symbol;

    BinaryOperator(String symbol) {
      this.symbol = symbol;
    }

    public String symbol() {
      return symbol;
    }
  }
}
