package dev.pawl.cli;

/** Ends a command with a message for the user and exit status 2. */
final class CommandException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  CommandException(String message) {
    super(message);
  }
}
