package dev.pawl.grammar.rules.model;

import java.util.List;

/** The type of a signal, with what is needed to convert a logged value to the engine's. */
public sealed interface ValueType {

  /** A switch or a bit. Engine value: 0 or 1. */
  record Bool() implements ValueType {}

  /**
   * One of a fixed list of names. Engine value: the index in {@code names}.
   *
   * @param name the type's name, or the empty string for one written in place
   * @param names the members, in order
   */
  record Enumeration(String name, List<String> names) implements ValueType {
    public Enumeration {
      names = List.copyOf(names);
    }
  }

  /**
   * A number with a unit. Engine value: {@code double} in SI base units, {@code logged * factor + offset} by {@link Rounding}.
   *
   * @param unit the unit as written in the rule file, the empty string for a plain number
   * @param dimension what kind of quantity it is
   * @param factor SI base units in one of the written unit
   * @param offset SI value of zero in the written unit (temperatures; 0 otherwise)
   */
  record Quantity(String unit, Dimension dimension, double factor, double offset) implements ValueType {

    /** The number in SI base units that stands for one in the written unit. */
    public double toSi(double written) {
      return Rounding.convert(written, factor, offset);
    }

    /** The number in the written unit that stands for one in SI base units. */
    public double toWritten(double si) {
      return factor == 1 && offset == 0 ? si : Rounding.settle((si - offset) / factor);
    }
  }
}
