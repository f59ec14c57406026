package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.Optional;

/** One clause of a zone. */
public sealed interface ZoneClause {

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
  }

  record Length(Expression length, Position position) implements ZoneClause {
    @Override
    public String word() {
      return "length";
    }
  }

  record Holds(String trains, Position position) implements ZoneClause {
    @Override
    public String word() {
      return "holds";
    }
  }

  record StartsWith(String trains, Position position) implements ZoneClause {
    @Override
    public String word() {
      return "starts with";
    }
  }
}
