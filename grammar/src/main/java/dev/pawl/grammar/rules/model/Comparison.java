package dev.pawl.grammar.rules.model;

/** The six comparisons of numbers. */
public enum Comparison {
  EQUAL("="),
  NOT_EQUAL("!="),
  LESS("<"),
  AT_MOST("<="),
  GREATER(">"),
  AT_LEAST(">=");

  private final String symbol;

  Comparison(String symbol) {
    this.symbol = symbol;
  }

  public String symbol() {
    return symbol;
  }
}
