package dev.pawl.cli;

/** The exit statuses, which scripts depend on. */
final class ExitStatus {

  static final int NOTHING_BROKEN = 0;
  static final int RULE_BROKEN = 1;
  static final int WRONG_INPUT = 2;
  /** Nothing broken, but something undecided or not exercised, where proof was asked for. */
  static final int NOT_PROVEN = 3;

  private ExitStatus() {}
}
