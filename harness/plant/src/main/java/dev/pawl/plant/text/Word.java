package dev.pawl.plant.text;

import dev.pawl.grammar.source.Position;

/**
 * A word of a statement.
 *
 * @param text the word, without its quotes
 * @param quoted whether it was quoted; a quoted word is never a keyword
 * @param position where it stands
 */
public record Word(String text, boolean quoted, Position position) {

  private static final String NAME = "[A-Za-z_][A-Za-z_0-9]*";

  /** Whether this is the given keyword or symbol. */
  public boolean is(String keyword) {
    return !quoted && text.equals(keyword);
  }

  /** Whether it can be the name of a signal or of equipment. */
  public boolean isName() {
    return !quoted && text.matches(NAME);
  }

  /** As a message shows it. */
  public String shown() {
    return quoted ? "\"" + text + "\"" : "'" + text + "'";
  }
}
