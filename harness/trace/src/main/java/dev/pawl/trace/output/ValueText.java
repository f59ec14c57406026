package dev.pawl.trace.output;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;

/**
 * Engine values as traces spell them: bits as 0 and 1, members by name, numbers in the signal's declared unit.
 *
 * <p>A number is written so that reading gives the same double again, in as few digits as that takes. Only where no number in
 * the declared unit has that value, which cannot happen to one that was read, is the nearest written.
 */
public final class ValueText {

  private static final int NEIGHBOURS = 4;
  private static final MathContext SHORT = new MathContext(15);

  private final List<Signal> signals;

  public ValueText(List<Signal> signals) {
    this.signals = List.copyOf(signals);
  }

  /** The value as text; the empty string for an unknown one. */
  public String of(int signal, long value) {
    if (value == EventSink.UNKNOWN) {
      return "";
    }
    ValueType type = signals.get(signal).type();
    if (type instanceof ValueType.Enumeration enumeration) {
      return enumeration.names().get((int) value);
    }
    if (type instanceof ValueType.Quantity quantity) {
      return number(Double.longBitsToDouble(value), quantity);
    }
    return value == 0 ? "0" : "1";
  }

  private static String number(double si, ValueType.Quantity unit) {
    double declared = unit.toWritten(si);
    if (unit.factor() == 1 && unit.offset() == 0) {
      return text(si);
    }
    double rounded = new BigDecimal(declared).round(SHORT).doubleValue();
    if (matches(rounded, si, unit)) {
      return text(rounded);
    }
    double below = declared;
    double above = declared;
    for (int i = 0; i < NEIGHBOURS; i++) {
      if (matches(below, si, unit)) {
        return text(below);
      }
      if (matches(above, si, unit)) {
        return text(above);
      }
      below = Math.nextDown(below);
      above = Math.nextUp(above);
    }
    return text(declared);
  }

  private static boolean matches(double declared, double si, ValueType.Quantity unit) {
    return unit.toSi(declared) == si;
  }

  private static String text(double value) {
    String text = Double.toString(value);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
