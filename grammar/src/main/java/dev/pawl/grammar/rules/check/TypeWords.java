package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.Map;

/** Types in the words of messages. */
final class TypeWords {

  private static final Map<Dimension, String> QUANTITIES = Map.ofEntries(
      Map.entry(Dimension.NONE, "a plain number"),
      Map.entry(Dimension.LENGTH, "a length"),
      Map.entry(Dimension.TIME, "a time"),
      Map.entry(Dimension.SPEED, "a speed"),
      Map.entry(new Dimension(1, 0, -2, 0, 0, 0), "an acceleration"),
      Map.entry(new Dimension(0, 1, 0, 0, 0, 0), "a mass"),
      Map.entry(new Dimension(1, 1, -2, 0, 0, 0), "a force"),
      Map.entry(new Dimension(-1, 1, -2, 0, 0, 0), "a pressure"),
      Map.entry(new Dimension(2, 1, -3, 0, 0, 0), "a power"),
      Map.entry(new Dimension(2, 1, -2, 0, 0, 0), "an energy or a torque"),
      Map.entry(new Dimension(0, 0, 0, 1, 0, 0), "a current"),
      Map.entry(new Dimension(2, 1, -3, -1, 0, 0), "a voltage"),
      Map.entry(new Dimension(0, 0, 0, 0, 1, 0), "a temperature"),
      Map.entry(new Dimension(0, 0, 0, 0, 0, 1), "an angle"),
      Map.entry(new Dimension(0, 0, -1, 0, 0, 1), "a rotational speed"),
      Map.entry(new Dimension(0, 0, -1, 0, 0, 0), "a frequency"),
      Map.entry(new Dimension(2, 0, 0, 0, 0, 0), "an area"),
      Map.entry(new Dimension(3, 0, 0, 0, 0, 0), "a volume"));

  private TypeWords() {}

  static String of(Dimension dimension) {
    String known = QUANTITIES.get(dimension);
    return known != null ? known : "a quantity in " + dimension.siUnit();
  }

  static String of(Checked value) {
    return value.match(condition -> "a condition", amount -> of(amount.dimension()), choice -> of(choice.type()),
        place -> "a zone", failed -> "something wrong");
  }

  static String of(ValueType type) {
    return type.match(bool -> "a condition", enumeration -> {
      String members = "one of (" + String.join(", ", enumeration.names()) + ")";
      return enumeration.name().isEmpty() ? members : "a " + enumeration.name() + " (" + members + ")";
    }, quantity -> of(quantity.dimension()));
  }

  /** The unit to suggest for a dimension: the one given, else the SI unit; the empty string for plain numbers. */
  static String unit(Checked.Amount amount) {
    return amount.unit().isEmpty() ? amount.dimension().siUnit() : amount.unit();
  }
}
