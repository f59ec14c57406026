package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.function.Function;

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
  public sealed interface Cases {

    /** The answer for the one it is. */
    <R> R match(Function<EveryZone, R> everyZone, Function<Listed, R> listed, Function<OfGroup, R> ofGroup);
  }

  public record EveryZone() implements Cases {
    @Override
    public <R> R match(Function<EveryZone, R> everyZone, Function<Listed, R> listed, Function<OfGroup, R> ofGroup) {
      return everyZone.apply(this);
    }
  }

  public record Listed(List<Tuple> tuples) implements Cases {
    @Override
    public <R> R match(Function<EveryZone, R> everyZone, Function<Listed, R> listed, Function<OfGroup, R> ofGroup) {
      return listed.apply(this);
    }
  }

  public record OfGroup(Name group) implements Cases {
    @Override
    public <R> R match(Function<EveryZone, R> everyZone, Function<Listed, R> listed, Function<OfGroup, R> ofGroup) {
      return ofGroup.apply(this);
    }
  }

  /** One case, as long as the list of names. */
  public record Tuple(List<Name> names, Position position) {}
}
