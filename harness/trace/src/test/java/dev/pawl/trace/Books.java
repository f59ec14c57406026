package dev.pawl.trace;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Rule books that declare signals and nothing else. */
public final class Books {

  /** One signal of each kind: two bools, a speed in mph, a temperature in degrees Celsius, a mode. */
  public static final RuleBook LIFT = of(List.of(
      Map.entry("lift_run", new ValueType.Bool()),
      Map.entry("estop_chain", new ValueType.Bool()),
      Map.entry("lift_speed", new ValueType.Quantity("mph", Dimension.SPEED, 0.44704, 0)),
      Map.entry("motor_heat", new ValueType.Quantity("degC", new Dimension(0, 0, 0, 0, 1, 0), 1, 273.15)),
      Map.entry("mode", new ValueType.Enumeration("", List.of("off", "manual", "automatic")))));

  private Books() {}

  public static RuleBook of(List<Map.Entry<String, ValueType>> signals) {
    List<Signal> declared = new ArrayList<>();
    signals.forEach(entry -> declared.add(
        new Signal(declared.size(), entry.getKey(), Signal.Direction.INPUT, entry.getValue(), Position.NOWHERE)));
    return new RuleBook("", 0, declared, List.of(), List.of());
  }

  /** The engine value of a number in SI units. */
  public static long si(double value) {
    return Double.doubleToRawLongBits(value);
  }
}
