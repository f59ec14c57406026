package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** An expression as written; parentheses are not kept, the printer sets them where they are needed. */
public sealed interface Expression {

  /** The stretch of the first line that the expression covers. */
  Position position();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Number e);
    R visit(Truth e);
    R visit(Unread e);
    R visit(TraceEdge e);
    R visit(Reference e);
    R visit(Call e);
    R visit(Negative e);
    R visit(Not e);
    R visit(Binary e);
    R visit(HeldFor e);
    R visit(InLast e);
    R visit(CountInLast e);
    R visit(CountSince e);
    R visit(TimeSince e);
    R visit(Window e);
  }

  /** A question to which most records have one answer. */
  interface Question<R> extends Visitor<R> {
    R otherwise(Expression e);

    @Override default R visit(Number e) { return otherwise(e); }
    @Override default R visit(Truth e) { return otherwise(e); }
    @Override default R visit(Unread e) { return otherwise(e); }
    @Override default R visit(TraceEdge e) { return otherwise(e); }
    @Override default R visit(Reference e) { return otherwise(e); }
    @Override default R visit(Call e) { return otherwise(e); }
    @Override default R visit(Negative e) { return otherwise(e); }
    @Override default R visit(Not e) { return otherwise(e); }
    @Override default R visit(Binary e) { return otherwise(e); }
    @Override default R visit(HeldFor e) { return otherwise(e); }
    @Override default R visit(InLast e) { return otherwise(e); }
    @Override default R visit(CountInLast e) { return otherwise(e); }
    @Override default R visit(CountSince e) { return otherwise(e); }
    @Override default R visit(TimeSince e) { return otherwise(e); }
    @Override default R visit(Window e) { return otherwise(e); }
  }

  /** {@code 500 ms}; the digits stay as written. */
  record Number(String digits, Optional<Name> unit, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Truth(boolean value, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** What could not be read, and was told so. */
  record Unread(Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code start} or {@code end}. */
  record TraceEdge(boolean start, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Reference(String name, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A built-in form such as {@code rises(p)}, or a definition with parameters. */
  record Call(Name function, List<Expression> arguments, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Negative(Expression operand, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Not(Expression operand, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Binary(BinaryOperator operator, Expression left, Expression right, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record HeldFor(Expression operand, Expression duration, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record InLast(Expression operand, Expression duration, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record CountInLast(Expression event, Expression duration, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record CountSince(Expression event, Expression anchor, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record TimeSince(Expression event, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code min(x) over D} and its like. */
  record Window(WindowKind kind, Expression operand, Expression duration, Position position) implements Expression {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
