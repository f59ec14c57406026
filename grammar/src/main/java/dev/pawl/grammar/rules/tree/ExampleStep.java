package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;

/** One line of an example's trace. */
public sealed interface ExampleStep {

  Expression time();

  Position position();

  record At(Expression time, List<Assignment> assignments, Position position) implements ExampleStep {}

  record End(Expression time, Position position) implements ExampleStep {}

  /** A signal and its value: a number, a truth value, or a name as a reference. */
  record Assignment(Name signal, Expression value) {}
}
