package dev.pawl.mqtt.payload;

import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.trace.bindings.Conversion;
import dev.pawl.trace.output.ValueText;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Map;
import java.util.TreeMap;

/** The text of a signal's value as its sender would write it: the opposite of reading under a conversion. */
final class ValueTexts {

  private static final MathContext SHORT = new MathContext(15);

  private final Signal signal;
  private final Conversion conversion;
  private final ValueText texts;
  private final Map<Long, String> codes = new TreeMap<>();

  /**
   * The texts of one signal.
   *
   * @param texts writes values by their index
   */
  ValueTexts(Signal signal, Conversion conversion, ValueText texts) {
    this.signal = signal;
    this.conversion = conversion;
    this.texts = texts;
    if (conversion instanceof Conversion.Mapped mapped) {
      new TreeMap<>(mapped.values()).forEach((code, value) -> codes.putIfAbsent(value, code));
    }
  }

  /** The value's text; the empty string where no code stands for it. The value is not unknown. */
  String of(long value) {
    if (conversion instanceof Conversion.Mapped) {
      return codes.getOrDefault(value, "");
    }
    if (conversion instanceof Conversion.Inverted) {
      return value == 0 ? "1" : "0";
    }
    if (conversion instanceof Conversion.Scaled scaled) {
      ValueType.Quantity unit = (ValueType.Quantity) signal.type();
      double declared = (Double.longBitsToDouble(value) - unit.offset()) / unit.factor();
      double logged = (declared - scaled.offset()) / scaled.factor();
      return plainNumber(new BigDecimal(logged).round(SHORT).doubleValue());
    }
    return texts.of(signal.index(), value);
  }

  private static String plainNumber(double number) {
    String text = Double.toString(number);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }

  /** Whether the text is a JSON literal as it is, not one that needs quotes. */
  boolean isLiteral() {
    return !(signal.type() instanceof ValueType.Enumeration) && !(conversion instanceof Conversion.Mapped);
  }

  boolean isBool() {
    return signal.type() instanceof ValueType.Bool && !(conversion instanceof Conversion.Mapped);
  }
}
