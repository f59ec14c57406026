package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.util.Locale;

/** A name as written. Names of the language do not distinguish upper and lower case. */
public record Name(String text, Position position) {

  /** The spelling under which the name is looked up. */
  public String key() {
    return text.toUpperCase(Locale.ROOT);
  }

  /** The variable that holds ENO of an instance of this name; no program can name it. */
  public Name done() {
    return new Name(text + " ENO", position);
  }

  @Override
  public String toString() {
    return text;
  }
}
