package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** A first value as written. */
public sealed interface Initializer {

  /** The answer for the one it is. */
  <R> R match(Function<Value, R> value, Function<Elements, R> elements, Function<Fields, R> fields);

  Position position();

  record Value(Expression expression) implements Initializer {
    @Override
    public Position position() {
      return expression.position();
    }

    @Override
    public <R> R match(Function<Value, R> value, Function<Elements, R> elements, Function<Fields, R> fields) {
      return value.apply(this);
    }
  }

  record Elements(List<Repeated> elements, Position position) implements Initializer {
    public Elements {
      elements = List.copyOf(elements);
    }

    @Override
    public <R> R match(Function<Value, R> value, Function<Elements, R> elements, Function<Fields, R> fields) {
      return elements.apply(this);
    }
  }

  /** {@code count(initial)}, or a single element with count 1; an empty one leaves the elements' own first values. */
  record Repeated(int count, Optional<Initializer> initial) {}

  record Fields(List<FieldValue> fields, Position position) implements Initializer {
    public Fields {
      fields = List.copyOf(fields);
    }

    @Override
    public <R> R match(Function<Value, R> value, Function<Elements, R> elements, Function<Fields, R> fields) {
      return fields.apply(this);
    }
  }

  record FieldValue(Name name, Initializer initial) {}
}
