package dev.pawl.trace.bindings;

import dev.pawl.grammar.source.Position;
import java.util.List;

/**
 * One line of a section.
 *
 * @param tokens its words, at least one
 */
public record Entry(List<Token> tokens) {

  public Entry {
    tokens = List.copyOf(tokens);
  }

  /** Where the whole entry stands. */
  public Position position() {
    Position first = tokens.get(0).position();
    Position last = tokens.get(tokens.size() - 1).position();
    return new Position(first.file(), first.line(), first.column(), last.column() + last.length() - first.column());
  }
}
