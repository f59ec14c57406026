package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.source.Position;

/** What a declared name stands for. */
sealed interface Declared {

  Position position();

  /** What it is, for messages. */
  String kind();

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(SignalEntry entry);
    R visit(ZoneEntry entry);
    R visit(ConstantEntry entry);
    R visit(DefineEntry entry);
    R visit(TypeEntry entry);
    R visit(GroupEntry entry);
    R visit(MissingEntry entry);
  }

  record SignalEntry(Signal signal) implements Declared {
    @Override public Position position() { return signal.position(); }
    @Override public String kind() { return "a signal"; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record ZoneEntry(int index, Declaration.Zone declaration) implements Declared {
    @Override public Position position() { return declaration.name().position(); }
    @Override public String kind() { return "a zone"; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record ConstantEntry(Declaration.Constant declaration) implements Declared {
    @Override public Position position() { return declaration.name().position(); }
    @Override public String kind() { return "a constant"; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record DefineEntry(Declaration.Define declaration) implements Declared {
    @Override public Position position() { return declaration.name().position(); }
    @Override public String kind() { return "a definition"; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record TypeEntry(ValueType.Enumeration type, Position position) implements Declared {
    @Override public String kind() { return "a type"; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  record GroupEntry(Declaration.Group declaration) implements Declared {
    @Override public Position position() { return declaration.name().position(); }
    @Override public String kind() { return "a group"; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A need that nothing satisfies: using it must not lead to further messages. */
  record MissingEntry(Position position) implements Declared {
    @Override public String kind() { return "a missing need"; }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
