package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;

/**
 * The head that makes one rule serve many zones or signals.
 *
 * @param variables the names that stand for the bound ones
 * @param cases what they stand for in turn
 * @param position where it stands
 */
public record ForEach(List<Variable> variables, Cases cases, Position position) {

  /** A name that stands for a zone, or for a signal or definition. */
  public record Variable(boolean zone, Name name) {}

  /** What the names stand for: every zone, listed tuples, or those of a group. */
  public sealed interface Cases {}

  public record EveryZone() implements Cases {}

  public record Listed(List<Tuple> tuples) implements Cases {}

  public record OfGroup(Name group) implements Cases {}

  /** One case, as long as the list of names. */
  public record Tuple(List<Name> names, Position position) {}
}
