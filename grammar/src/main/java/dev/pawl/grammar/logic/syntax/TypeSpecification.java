package dev.pawl.grammar.logic.syntax;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** A type as written. */
public sealed interface TypeSpecification {

  Position position();

  record Named(Name name) implements TypeSpecification {
    @Override
    public Position position() {
      return name.position();
    }
  }

  record SizedString(Name name, Expression length, Position position) implements TypeSpecification {}

  record Subrange(Name base, Expression low, Expression high, Position position) implements TypeSpecification {}

  record Enumeration(Optional<Name> base, List<Member> members, Position position) implements TypeSpecification {
    public Enumeration {
      members = List.copyOf(members);
    }
  }

  record Member(Name name, Optional<Expression> value) {}

  record ArrayOf(List<Bounds> bounds, TypeSpecification element, Position position) implements TypeSpecification {
    public ArrayOf {
      bounds = List.copyOf(bounds);
    }
  }

  record Bounds(Expression low, Expression high) {}

  record Structure(List<Field> fields, Position position) implements TypeSpecification {
    public Structure {
      fields = List.copyOf(fields);
    }
  }

  record Field(Name name, TypeSpecification specification, Optional<Initializer> initial) {}

  /** A specification that could not be understood and has been reported. */
  record Unreadable(Position position) implements TypeSpecification {}
}
