package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** A first value as written. */
public sealed interface Initializer {

  Position position();

  record Value(Expression expression) implements Initializer {
    @Override
    public Position position() {
      return expression.position();
    }
  }

  record Elements(List<Repeated> elements, Position position) implements Initializer {
    public Elements {
      elements = List.copyOf(elements);
    }
  }

  /** {@code count(initial)}, or a single element with count 1; an empty one leaves the elements' own first values. */
  record Repeated(int count, Optional<Initializer> initial) {}

  record Fields(List<FieldValue> fields, Position position) implements Initializer {
    public Fields {
      fields = List.copyOf(fields);
    }
  }

  record FieldValue(Name name, Initializer initial) {}
}
