package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.function.Function;

/** A type as written. */
public sealed interface TypeName {

  /** The answer for the one it is. */
  <R> R match(Function<Bool, R> bool, Function<Number, R> number, Function<OneOf, R> oneOf, Function<Named, R> named);

  record Bool(Position position) implements TypeName {
    @Override
    public <R> R match(Function<Bool, R> bool, Function<Number, R> number, Function<OneOf, R> oneOf,
        Function<Named, R> named) {
      return bool.apply(this);
    }
  }

  record Number(Position position) implements TypeName {
    @Override
    public <R> R match(Function<Bool, R> bool, Function<Number, R> number, Function<OneOf, R> oneOf,
        Function<Named, R> named) {
      return number.apply(this);
    }
  }

  /** {@code one of (a, b, c)}. */
  record OneOf(List<Name> members, Position position) implements TypeName {
    @Override
    public <R> R match(Function<Bool, R> bool, Function<Number, R> number, Function<OneOf, R> oneOf,
        Function<Named, R> named) {
      return oneOf.apply(this);
    }
  }

  /** A unit, or the name of a declared type: which of them is not known before names are resolved. */
  record Named(String text, Position position) implements TypeName {
    @Override
    public <R> R match(Function<Bool, R> bool, Function<Number, R> number, Function<OneOf, R> oneOf,
        Function<Named, R> named) {
      return named.apply(this);
    }
  }
}
