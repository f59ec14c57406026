package dev.pawl.grammar.logic.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** A type as written. */
public sealed interface TypeSpecification {

  Position position();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Named e);
    R visit(SizedString e);
    R visit(Subrange e);
    R visit(Enumeration e);
    R visit(ArrayOf e);
    R visit(OpenArray e);
    R visit(Structure e);
    R visit(Unreadable e);
  }

  record Named(Name name) implements TypeSpecification {
    @Override
    public Position position() {
      return name.position();
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record SizedString(Name name, Expression length, Position position) implements TypeSpecification {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Subrange(Name base, Expression low, Expression high, Position position) implements TypeSpecification {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Enumeration(Optional<Name> base, List<Member> members, Position position) implements TypeSpecification {
    public Enumeration {
      members = List.copyOf(members);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Member(Name name, Optional<Expression> value) {}

  record ArrayOf(List<Bounds> bounds, TypeSpecification element, Position position) implements TypeSpecification {
    public ArrayOf {
      bounds = List.copyOf(bounds);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code ARRAY[*]}: an array whose bounds are those of the array that a call gives. */
  record OpenArray(int dimensions, TypeSpecification element, Position position) implements TypeSpecification {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Bounds(Expression low, Expression high) {}

  record Structure(List<Field> fields, Position position) implements TypeSpecification {
    public Structure {
      fields = List.copyOf(fields);
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Field(Name name, TypeSpecification specification, Optional<Initializer> initial) {}

  /** A specification that could not be understood and has been reported. */
  record Unreadable(Position position) implements TypeSpecification {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
