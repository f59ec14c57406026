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

  record SignalEntry(Signal signal) implements Declared {
    @Override
    public Position position() {
      return signal.position();
    }

    @Override
    public String kind() {
      return "a signal";
    }
  }

  record ZoneEntry(int index, Declaration.Zone declaration) implements Declared {
    @Override
    public Position position() {
      return declaration.name().position();
    }

    @Override
    public String kind() {
      return "a zone";
    }
  }

  record ConstantEntry(Declaration.Constant declaration) implements Declared {
    @Override
    public Position position() {
      return declaration.name().position();
    }

    @Override
    public String kind() {
      return "a constant";
    }
  }

  record DefineEntry(Declaration.Define declaration) implements Declared {
    @Override
    public Position position() {
      return declaration.name().position();
    }

    @Override
    public String kind() {
      return "a definition";
    }
  }

  record TypeEntry(ValueType.Enumeration type, Position position) implements Declared {
    @Override
    public String kind() {
      return "a type";
    }
  }

  record GroupEntry(Declaration.Group declaration) implements Declared {
    @Override
    public Position position() {
      return declaration.name().position();
    }

    @Override
    public String kind() {
      return "a group";
    }
  }

  /** A need that nothing satisfies: using it must not lead to further messages. */
  record MissingEntry(Position position) implements Declared {
    @Override
    public String kind() {
      return "a missing need";
    }
  }
}
