package dev.pawl.logic;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.Signal.Direction;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;

/** Rule books that hold nothing but signals. */
final class Books {

  static final ValueType BOOL = new ValueType.Bool();
  static final ValueType MODE = new ValueType.Enumeration("mode", List.of("off", "manual", "automatic"));
  static final ValueType SECONDS = new ValueType.Quantity("s", Dimension.TIME, 1, 0);
  static final ValueType MILES_PER_HOUR = new ValueType.Quantity("mph", Dimension.SPEED, 0.44704, 0);
  static final ValueType CELSIUS = new ValueType.Quantity("degC", new Dimension(0, 0, 0, 0, 1, 0), 1, 273.15);
  static final ValueType COUNT = new ValueType.Quantity("", Dimension.NONE, 1, 0);

  private final List<Signal> signals = new ArrayList<>();

  Books input(String name, ValueType type) {
    return add(name, Direction.INPUT, type);
  }

  Books output(String name, ValueType type) {
    return add(name, Direction.OUTPUT, type);
  }

  Books internal(String name, ValueType type) {
    return add(name, Direction.INTERNAL, type);
  }

  private Books add(String name, Direction direction, ValueType type) {
    signals.add(new Signal(signals.size(), name, direction, type,
        new Position("ride.rules", signals.size() + 1, 1, name.length())));
    return this;
  }

  RuleBook book() {
    return new RuleBook("Test", 0, signals, List.of(), List.of());
  }
}
