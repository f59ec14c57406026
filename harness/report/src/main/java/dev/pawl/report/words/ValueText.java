package dev.pawl.report.words;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.ValueType;
import java.math.BigDecimal;
import java.math.MathContext;

/** Engine values in the words and units of the rule file. */
public final class ValueText {

  private static final MathContext SHOWN = new MathContext(9);

  private ValueText() {}

  /**
   * One value, such as {@code true}, {@code AUTO}, {@code 1.4 m/s} or {@code unknown}.
   *
   * @param value engine value, as in {@link EventSink#event}
   */
  public static String of(ValueType type, long value) {
    if (isUnknown(value)) {
      return "unknown";
    }
    return type.match(
        bool -> value != 0 ? "true" : "false",
        enumeration -> value >= 0 && value < enumeration.names().size() ? enumeration.names().get((int) value)
            : "member " + value,
        quantity -> withUnit(written(quantity, Double.longBitsToDouble(value)), quantity.unit()));
  }

  public static boolean isUnknown(long value) {
    return value == EventSink.UNKNOWN;
  }

  /** A number of SI base units in the written unit. */
  public static double written(ValueType.Quantity quantity, double si) {
    return quantity.toWritten(si);
  }

  public static String withUnit(double value, String unit) {
    return unit.isEmpty() ? number(value) : number(value) + " " + unit;
  }

  /**
   * At most nine significant digits, without trailing zeros, and without an exponent unless the number is very large or
   * small.
   */
  public static String number(double value) {
    if (Double.isNaN(value) || Double.isInfinite(value)) {
      return Double.isNaN(value) ? "unknown" : value > 0 ? "infinite" : "-infinite";
    }
    if (value == 0) {
      return "0";
    }
    BigDecimal rounded = new BigDecimal(value).round(SHOWN).stripTrailingZeros();
    double size = Math.abs(value);
    return size >= 1e12 || size < 1e-6 ? rounded.toString() : rounded.toPlainString();
  }

  /** A count of things, such as {@code 1 run} or {@code 12,345 runs}. */
  public static String count(long count, String thing) {
    return count(count) + " " + thing + (count == 1 ? "" : "s");
  }

  /** A count with its thousands set apart, such as {@code 12,345}. */
  public static String count(long count) {
    StringBuilder digits = new StringBuilder(Long.toString(count));
    for (int i = digits.length() - 3; i > (count < 0 ? 1 : 0); i -= 3) {
      digits.insert(i, ',');
    }
    return digits.toString();
  }
}
