package dev.pawl.grammar.rules.model;

/** An expression with a member of an enumeration, as its index, at every time. */
public sealed interface EnumExpr {

  record Literal(int index) implements EnumExpr {}

  record Signal(int signal) implements EnumExpr {}

  /** Value just before the last change. */
  record Previous(EnumExpr operand) implements EnumExpr {}
}
