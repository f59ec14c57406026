package dev.pawl.cli;

/** Ends a command with a message for the user and exit status 2. */
public final class CommandException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  public CommandException(String message) {
    super(message);
  }
}
