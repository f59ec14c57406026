package dev.pawl.grammar.source;

/**
 * One thing that is wrong, or doubtful, at one place of a source.
 *
 * @param severity error or warning
 * @param position where
 * @param message what is wrong, in the words of the language
 * @param hint what to do about it, or the empty string
 */
public record Diagnostic(Severity severity, Position position, String message, String hint) {

  public static Diagnostic error(Position position, String message, String hint) {
    return new Diagnostic(Severity.ERROR, position, message, hint);
  }

  public static Diagnostic error(Position position, String message) {
    return error(position, message, "");
  }

  public static Diagnostic warning(Position position, String message, String hint) {
    return new Diagnostic(Severity.WARNING, position, message, hint);
  }

  /** What is said behind a message that holds at other places too. */
  public static String others(int count) {
    return " (and at " + count + (count == 1 ? " more place)" : " more places)");
  }

  public boolean isError() {
    return severity == Severity.ERROR;
  }
}
