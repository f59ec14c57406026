package dev.pawl.logic.runtime;

/** A run-time error of a program under test. */
public final class LogicFault extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /** A fault with what happened, in words for the report. */
  public LogicFault(String message) {
    super(message);
  }
}
