package dev.pawl.engine.proof;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;

/**
 * The signals over which random rules are drawn: four switches, two plain numbers, a speed, a duration and two of one
 * enumeration.
 */
final class TestSignals {
  static final int[] SWITCHES = {0, 1, 2, 3};
  static final int[] NUMBERS = {4, 5};
  static final int SPEED = 6;
  static final int DURATION = 7;
  static final int[] MODES = {8, 9};
  static final int MEMBERS = 3;
  static final List<Signal> ALL = all();

  private TestSignals() {}

  private static List<Signal> all() {
    ValueType mode = new ValueType.Enumeration("mode", List.of("m0", "m1", "m2"));
    List<Signal> signals = new ArrayList<>();
    for (String name : List.of("a", "b", "c", "d")) {
      signals.add(signal(signals.size(), name, new ValueType.Bool()));
    }
    signals.add(signal(4, "x", quantity("", Dimension.NONE)));
    signals.add(signal(5, "y", quantity("", Dimension.NONE)));
    signals.add(signal(6, "v", quantity("m/s", Dimension.SPEED)));
    signals.add(signal(7, "w", quantity("s", Dimension.TIME)));
    signals.add(signal(8, "e", mode));
    signals.add(signal(9, "f", mode));
    return List.copyOf(signals);
  }

  private static ValueType quantity(String unit, Dimension dimension) {
    return new ValueType.Quantity(unit, dimension, 1, 0);
  }

  private static Signal signal(int index, String name, ValueType type) {
    return new Signal(index, name, Signal.Direction.INPUT, type, Position.NOWHERE);
  }

  static RuleBook book(List<Zone> zones, List<Rule> rules) {
    return new RuleBook("", 0, ALL, zones, rules);
  }

  static Rule rule(int index, Rule.Duty duty, long resolution) {
    return rule(index, duty, Proof.NONE, resolution);
  }

  static Rule rule(int index, Rule.Duty duty, Proof proof, long resolution) {
    return new Rule(index, "R-" + index, "", Rule.Severity.MINOR, Rule.Basis.PRACTICE, duty, proof, resolution, "",
        Position.NOWHERE);
  }
}
