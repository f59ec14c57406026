package dev.pawl.grammar.rules.model;

import java.util.List;
import java.util.function.Function;

/** The type of a signal, with what is needed to convert a logged value to the engine's. */
public sealed interface ValueType {

  /** The answer for the one it is. */
  <R> R match(Function<Bool, R> bool, Function<Enumeration, R> enumeration, Function<Quantity, R> quantity);

  default boolean isBool() {
    return this instanceof Bool;
  }

  default boolean isNumber() {
    return this instanceof Quantity;
  }

  /** A switch or a bit. Engine value: 0 or 1. */
  record Bool() implements ValueType {
    @Override
    public <R> R match(Function<Bool, R> bool, Function<Enumeration, R> enumeration, Function<Quantity, R> quantity) {
      return bool.apply(this);
    }
  }

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

    @Override
    public <R> R match(Function<Bool, R> bool, Function<Enumeration, R> enumeration, Function<Quantity, R> quantity) {
      return enumeration.apply(this);
    }
  }

  /**
   * A number with a unit. Engine value: {@code double} in SI base units, converted by its {@link Scale}.
   *
   * @param unit the unit as written in the rule file, the empty string for a plain number
   * @param dimension what kind of quantity it is
   * @param scale from the written unit to SI base units
   */
  record Quantity(String unit, Dimension dimension, Scale scale) implements ValueType {

    /** A number without a unit. */
    public static final Quantity PLAIN = new Quantity("", Dimension.NONE, Scale.SAME);

    /** The unit whose factor and offset are the decimal numbers that these doubles stand for. */
    public Quantity(String unit, Dimension dimension, double factor, double offset) {
      this(unit, dimension, new Scale(Exact.of(Scale.shortest(factor)), Exact.of(Scale.shortest(offset))));
    }

    @Override
    public <R> R match(Function<Bool, R> bool, Function<Enumeration, R> enumeration, Function<Quantity, R> quantity) {
      return quantity.apply(this);
    }

    /** The number in SI base units that stands for one in the written unit. */
    public double toSi(double written) {
      return scale.convert(written);
    }

    /** The number in the written unit that stands for one in SI base units. */
    public double toWritten(double si) {
      return scale.originNumber(si);
    }
  }
}
