package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.function.Function;

/** One line of an example's trace. */
public sealed interface ExampleStep {

  /** The answer for the one it is. */
  <R> R match(Function<At, R> at, Function<End, R> end);

  Expression time();

  Position position();

  record At(Expression time, List<Assignment> assignments, Position position) implements ExampleStep {
    @Override public <R> R match(Function<At, R> at, Function<End, R> end) { return at.apply(this); }
  }

  record End(Expression time, Position position) implements ExampleStep {
    @Override public <R> R match(Function<At, R> at, Function<End, R> end) { return end.apply(this); }
  }

  /** A signal and its value: a number, a truth value, or a name as a reference. */
  record Assignment(Name signal, Expression value) {}
}
