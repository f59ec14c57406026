package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.Optional;
import java.util.function.Function;

/** One clause of a zone. */
public sealed interface ZoneClause {

  /** The answer for the one it is. */
  <R> R match(Function<Boundary, R> boundary, Function<Length, R> length, Function<Holds, R> holds,
      Function<StartsWith, R> startsWith);

  Position position();

  /** The word it begins with. */
  String word();

  /** {@code enter E} and {@code leave E}, or with two flags {@code enter outer then inner}. */
  record Boundary(boolean entry, Expression first, Optional<Expression> second, Position position)
      implements ZoneClause {
    @Override
    public String word() {
      return entry ? "enter" : "leave";
    }

    @Override
    public <R> R match(Function<Boundary, R> boundary, Function<Length, R> length, Function<Holds, R> holds,
        Function<StartsWith, R> startsWith) {
      return boundary.apply(this);
    }
  }

  record Length(Expression length, Position position) implements ZoneClause {
    @Override
    public String word() {
      return "length";
    }

    @Override
    public <R> R match(Function<Boundary, R> boundary, Function<Length, R> length, Function<Holds, R> holds,
        Function<StartsWith, R> startsWith) {
      return length.apply(this);
    }
  }

  record Holds(String trains, Position position) implements ZoneClause {
    @Override
    public String word() {
      return "holds";
    }

    @Override
    public <R> R match(Function<Boundary, R> boundary, Function<Length, R> length, Function<Holds, R> holds,
        Function<StartsWith, R> startsWith) {
      return holds.apply(this);
    }
  }

  record StartsWith(String trains, Position position) implements ZoneClause {
    @Override
    public String word() {
      return "starts with";
    }

    @Override
    public <R> R match(Function<Boundary, R> boundary, Function<Length, R> length, Function<Holds, R> holds,
        Function<StartsWith, R> startsWith) {
      return startsWith.apply(this);
    }
  }
}
