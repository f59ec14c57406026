package dev.pawl.grammar.rules.model;

/**
 * Kleene's three truth values, with the unknown one split by its cause. Codes are fixed: false 0, true 1, unknown 2,
 * borderline
 * 3; the engine computes with the codes.
 */
public enum Truth {
  FALSE,
  TRUE,
  /** Decided by a signal whose value is not known. */
  UNKNOWN,
  /** Decided by a number that is nearer to its bound than the stated tolerance. */
  BORDERLINE;

  public static final int F = 0;
  public static final int T = 1;
  public static final int U = 2;
  public static final int B = 3;
}
