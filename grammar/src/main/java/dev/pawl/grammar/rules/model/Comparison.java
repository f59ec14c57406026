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

  /** The comparison that holds where this one does not. */
  public Comparison negated() {
    return switch (this) {
      case EQUAL -> NOT_EQUAL;
      case NOT_EQUAL -> EQUAL;
      case LESS -> AT_LEAST;
      case AT_MOST -> GREATER;
      case GREATER -> AT_MOST;
      case AT_LEAST -> LESS;
    };
  }
}
