package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.function.Function;

/** One clause of a requirement. */
public sealed interface RequirementClause {

  /** The answer for the one it is. */
  <R> R match(Function<Worded, R> worded, Function<SatisfiedBy, R> satisfiedBy);

  Position position();

  /** The words it begins with. */
  String word();

  /** Something said of it in words of its own: {@code source}, {@code hazard} or {@code level}. */
  record Worded(String word, Name text, Position position) implements RequirementClause {
    @Override
    public <R> R match(Function<Worded, R> worded, Function<SatisfiedBy, R> satisfiedBy) {
      return worded.apply(this);
    }
  }

  /** The rules that satisfy it, named here because their own file serves many rides. */
  record SatisfiedBy(List<Name> rules, Position position) implements RequirementClause {
    @Override
    public String word() {
      return "satisfied by";
    }

    @Override
    public <R> R match(Function<Worded, R> worded, Function<SatisfiedBy, R> satisfiedBy) {
      return satisfiedBy.apply(this);
    }
  }
}
