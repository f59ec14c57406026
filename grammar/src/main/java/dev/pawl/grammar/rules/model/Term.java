package dev.pawl.grammar.rules.model;

import dev.pawl.grammar.source.Position;

/**
 * A name of a rule file that a rule is written with.
 *
 * @param name the name
 * @param written what the file says that it stands for
 * @param value of a constant: the number, worked out, with its unit; of a definition the empty string
 * @param position where it is declared
 */
public record Term(String name, String written, String value, Position position) {

  public boolean isConstant() {
    return !value.isEmpty();
  }
}
