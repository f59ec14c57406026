package dev.pawl.trace.intake;

/** The kinds of problem that a trace can have. */
public enum ProblemKind {
  UNREADABLE("unreadable trace"),
  DAMAGED("damaged data"),
  MALFORMED("malformed row"),
  WRONG_TIME("wrong time"),
  OUT_OF_ORDER("row out of order"),
  DUPLICATE("duplicate row"),
  UNBOUND("unbound tag"),
  WRONG_VALUE("wrong value"),
  UNKNOWN_QUALITY("unknown quality");

  private final String label;

  ProblemKind(String label) {
    this.label = label;
  }

  /** Whether nobody can say of which signal such a row was. */
  boolean losesSignal() {
    return this == MALFORMED || this == WRONG_TIME;
  }

  /** What one such problem is called. */
  public String label() {
    return label;
  }
}
