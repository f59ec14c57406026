package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/**
 * The head that makes one rule serve many zones or signals.
 *
 * @param variables the names that stand for the bound ones
 * @param tuples what they stand for in turn, each as long as {@code variables}; empty for every zone
 * @param position where it stands
 */
public record ForEach(List<Variable> variables, Optional<List<Tuple>> tuples, Position position) {

  /** A name that stands for a zone, or for a signal or definition. */
  public record Variable(boolean zone, Name name) {}

  public record Tuple(List<Name> names, Position position) {}
}
