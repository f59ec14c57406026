package dev.pawl.cli;

/** The exit statuses, which scripts depend on. */
public final class ExitStatus {

  public static final int NOTHING_BROKEN = 0;
  public static final int RULE_BROKEN = 1;
  public static final int WRONG_INPUT = 2;
  /** Nothing broken, but something undecided or not exercised, where proof was asked for. */
  public static final int NOT_PROVEN = 3;

  /** Nothing broken but what persons accept, or a decision of theirs that lapsed. */
  public static final int ACCEPTED = 4;

  private ExitStatus() {}
}
