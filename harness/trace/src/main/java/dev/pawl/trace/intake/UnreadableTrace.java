package dev.pawl.trace.intake;

/** The end of reading: a trace of which nothing more can be understood. The reason is already among the problems. */
public final class UnreadableTrace extends Exception {

  private static final long serialVersionUID = 1;

  public UnreadableTrace() {
    super("", null, false, false);
  }
}
