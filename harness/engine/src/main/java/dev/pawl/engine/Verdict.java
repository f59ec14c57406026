package dev.pawl.engine;

/** What a trace says about a rule. */
public enum Verdict {
  /** At least one obligation was met, and none came out otherwise. */
  HELD("held"),
  /** At least one obligation was not met. */
  BROKEN("broken"),
  /** No obligation arose but such as were so already, or were cancelled. */
  NOT_EXERCISED("not-exercised"),
  /**
   * None missed, but at least one open, borderline or decided by an unknown value, or its trigger may have happened.
   */
  UNDECIDED("undecided");

  private final String label;

  Verdict(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }
}
