package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** An expression as written; parentheses are not kept, the printer sets them where they are needed. */
public sealed interface Expression {

  /** The stretch of the first line that the expression covers. */
  Position position();

  /** {@code 500 ms}; the digits stay as written. */
  record Number(String digits, Optional<Name> unit, Position position) implements Expression {}

  record Truth(boolean value, Position position) implements Expression {}

  /** What could not be read, and was told so. */
  record Unread(Position position) implements Expression {}

  /** {@code start} or {@code end}. */
  record TraceEdge(boolean start, Position position) implements Expression {}

  record Reference(String name, Position position) implements Expression {}

  /** A built-in form such as {@code rises(p)}, or a definition with parameters. */
  record Call(Name function, List<Expression> arguments, Position position) implements Expression {}

  record Negative(Expression operand, Position position) implements Expression {}

  record Not(Expression operand, Position position) implements Expression {}

  record Binary(BinaryOperator operator, Expression left, Expression right, Position position) implements Expression {}

  record HeldFor(Expression operand, Expression duration, Position position) implements Expression {}

  record InLast(Expression operand, Expression duration, Position position) implements Expression {}

  record CountInLast(Expression event, Expression duration, Position position) implements Expression {}

  record CountSince(Expression event, Expression anchor, Position position) implements Expression {}

  record TimeSince(Expression event, Position position) implements Expression {}

  /** {@code min(x) over D} and its like. */
  record Window(WindowKind kind, Expression operand, Expression duration, Position position) implements Expression {}
}
