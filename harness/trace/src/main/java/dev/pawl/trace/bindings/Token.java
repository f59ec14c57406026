package dev.pawl.trace.bindings;

import dev.pawl.grammar.source.Position;

/**
 * A word of an entry.
 *
 * @param text the word, without its quotes
 * @param quoted whether it was quoted; a quoted word is never a keyword
 * @param position where it stands
 */
public record Token(String text, boolean quoted, Position position) {

  /** Whether this is the given keyword or symbol. */
  public boolean is(String keyword) {
    return !quoted && text.equals(keyword);
  }
}
