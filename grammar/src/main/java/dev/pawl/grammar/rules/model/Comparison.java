package dev.pawl.grammar.rules.model;

/** The six comparisons of numbers. */
public enum Comparison {
  EQUAL("=", false, true, false),
  NOT_EQUAL("!=", true, false, true),
  LESS("<", true, false, false),
  AT_MOST("<=", true, true, false),
  GREATER(">", false, false, true),
  AT_LEAST(">=", false, true, true);

  private final String symbol;
  private final boolean ofLess;
  private final boolean ofEqual;
  private final boolean ofGreater;

  Comparison(String symbol, boolean ofLess, boolean ofEqual, boolean ofGreater) {
    this.symbol = symbol;
    this.ofLess = ofLess;
    this.ofEqual = ofEqual;
    this.ofGreater = ofGreater;
  }

  public String symbol() {
    return symbol;
  }

  /** Whether it holds of two numbers, of which neither is NaN. */
  public boolean holds(double left, double right) {
    return left < right ? ofLess : left > right ? ofGreater : ofEqual;
  }

  /** Whether it holds of two whole numbers. */
  public boolean holds(long left, long right) {
    return left < right ? ofLess : left > right ? ofGreater : ofEqual;
  }

  /**
   * By how much it holds of two numbers: the least change of either that makes it break, negative the other way; NaN if
   * one of them is.
   */
  public double distance(double left, double right) {
    if (ofLess == ofGreater) {
      double apart = Math.abs(left - right);
      return ofLess ? apart : -apart;
    }
    return ofLess ? right - left : left - right;
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

  /** The comparison that holds of two numbers in the other order. */
  public Comparison mirrored() {
    return switch (this) {
      case EQUAL, NOT_EQUAL -> this;
      case LESS -> GREATER;
      case AT_MOST -> AT_LEAST;
      case GREATER -> LESS;
      case AT_LEAST -> AT_MOST;
    };
  }
}
