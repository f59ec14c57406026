package dev.pawl.grammar.source;

/**
 * A text with the name it is reported under.
 *
 * @param name file name as the user gave it
 * @param text the whole text
 */
public record Source(String name, String text) {

  /** The given line (1-based) without its line break, or the empty string outside the text. */
  public String line(int number) {
    int start = 0;
    for (int current = 1; current < number; current++) {
      start = text.indexOf('\n', start) + 1;
      if (start == 0) {
        return "";
      }
    }
    int end = text.indexOf('\n', start);
    String line = text.substring(start, end < 0 ? text.length() : end);
    return line.endsWith("\r") ? line.substring(0, line.length() - 1) : line;
  }
}
