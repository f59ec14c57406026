package dev.pawl.run;

/** Says why nothing can be judged: what is wrong with rules, logic, bindings, a path or a bench, and what to do. */
public final class RunException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final String summary;
  private final String diagnostics;

  public RunException(String summary) {
    this("", summary);
  }

  /**
   * A problem with texts.
   *
   * @param diagnostics all that is wrong with them, as the user is to read it
   * @param summary what follows from that
   */
  public RunException(String diagnostics, String summary) {
    super(diagnostics + summary);
    this.diagnostics = diagnostics;
    this.summary = summary;
  }

  /** What is wrong, in one sentence. */
  public String summary() {
    return summary;
  }

  /** The places of it, with their lines of text; empty where it has none. */
  public String diagnostics() {
    return diagnostics;
  }
}
