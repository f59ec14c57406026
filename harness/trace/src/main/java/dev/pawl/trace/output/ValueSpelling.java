package dev.pawl.trace.output;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.Signal;
import java.math.BigDecimal;
import java.util.List;

/**
 * Engine values as traces spell them: bits as 0 and 1, members by name, numbers in the signal's declared unit.
 *
 * <p>A number is written so that reading gives the same double again, in as few digits as that takes. Only where no
 * number in the declared unit has that value, which cannot happen to one that was read, is the nearest written.
 */
public final class ValueSpelling {

  /** More places than that are written with an exponent. */
  private static final int MOST_ZEROS = 20;

  private final List<Signal> signals;

  public ValueSpelling(List<Signal> signals) {
    this.signals = List.copyOf(signals);
  }

  /** The value as text; the empty string for an unknown one. */
  public String of(int signal, long value) {
    if (value == EventSink.UNKNOWN) {
      return "";
    }
    return signals.get(signal).type().match(
        bool -> value == 0 ? "0" : "1",
        enumeration -> enumeration.names().get((int) value),
        quantity -> number(Double.longBitsToDouble(value), quantity.scale()));
  }

  /** The number that the scale converts to the given one. */
  public static String number(double converted, Scale scale) {
    return !Double.isFinite(converted) || scale.isSame() ? text(converted) : text(scale.origin(converted));
  }

  private static String text(double value) {
    String text = Double.toString(value);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }

  private static String text(BigDecimal value) {
    BigDecimal plain = value.stripTrailingZeros();
    return Math.abs(plain.scale()) > MOST_ZEROS ? plain.toString() : plain.toPlainString();
  }
}
