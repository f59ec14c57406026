package dev.pawl.grammar.rules.tree;

/** How tightly a form holds its operands, the tightest first. */
public enum Binding {
  PRIMARY,
  NEGATIVE,
  PRODUCT,
  SUM,
  COMPARISON,
  NEGATION,
  TEMPORAL,
  CONJUNCTION,
  DISJUNCTION,
  IMPLICATION
}
