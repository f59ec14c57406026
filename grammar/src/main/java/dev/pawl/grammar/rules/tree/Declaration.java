package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** One statement of a rule file. */
public sealed interface Declaration {

  /** Where its first word stands. */
  Position position();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Language e);
    R visit(Ride e);
    R visit(Resolution e);
    R visit(Use e);
    R visit(Constant e);
    R visit(Define e);
    R visit(EnumType e);
    R visit(Signals e);
    R visit(Needs e);
    R visit(Group e);
    R visit(Zone e);
    R visit(Rule e);
    R visit(Requirement e);
    R visit(Example e);
  }

  /** The version of the language in which the file is written. */
  record Language(String version, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Ride(Name title, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Resolution(Expression duration, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code use "other.rules"}. */
  record Use(Name file, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Constant(Name name, Expression value, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Define(Name name, List<Parameter> parameters, Expression body, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code type mode = one of (off, manual)}. */
  record EnumType(Name name, TypeName.OneOf members, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Signals(Direction direction, List<Name> names, TypeName type, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** What a library file expects the ride's file to declare; the type is there for values only. */
  record Needs(NeedKind kind, List<Name> names, Optional<TypeName> type, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Cases for {@code for each} under one name. */
  record Group(Name name, List<ForEach.Tuple> tuples, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Zone(Name name, List<ZoneClause> clauses, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record Rule(Optional<ForEach> forEach, Name id, Name title, List<RuleClause> clauses, Duty duty,
      List<ProofClause> proof, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** What a ride has to do, as those who ask for it say it. */
  record Requirement(Name id, Name text, List<RequirementClause> clauses, Position position) implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A tiny trace with the verdict that a rule must give on it. */
  record Example(Name title, Name rule, Outcome outcome, List<ExampleStep> steps, Position position)
      implements Declaration {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** Which way a signal runs, as seen from the logic under test. */
  enum Direction {
    INPUT,
    OUTPUT,
    INTERNAL
  }

  /** What is needed. */
  enum NeedKind {
    VALUE,
    ZONE,
    GROUP
  }

  /** A parameter of a definition; without a type it is a zone. */
  record Parameter(Name name, Optional<TypeName> type) {}
}
