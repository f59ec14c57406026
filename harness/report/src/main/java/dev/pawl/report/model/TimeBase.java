package dev.pawl.report.model;

/** What the nanoseconds of a trace are counted from. */
public enum TimeBase {
  /** From the start that the trace states for itself. */
  START("start"),
  /** From 1970-01-01T00:00:00Z. */
  EPOCH("epoch");

  private final String label;

  TimeBase(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }
}
