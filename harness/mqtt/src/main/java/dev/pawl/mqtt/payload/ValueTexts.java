package dev.pawl.mqtt.payload;

import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.trace.bindings.Conversion;
import dev.pawl.trace.output.ValueSpelling;
import java.util.Map;
import java.util.TreeMap;

/** The text of a signal's value as its sender would write it: the opposite of reading under a conversion. */
final class ValueTexts {

  private final Signal signal;
  private final Conversion conversion;
  private final ValueSpelling texts;
  private final Map<Long, String> codes = new TreeMap<>();

  /**
   * The texts of one signal.
   *
   * @param texts writes values by their index
   */
  ValueTexts(Signal signal, Conversion conversion, ValueSpelling texts) {
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
    if (conversion instanceof Conversion.Scaled scaled && signal.type() instanceof ValueType.Quantity unit) {
      return ValueSpelling.number(Double.longBitsToDouble(value), scaled.toSi(unit));
    }
    return texts.of(signal.index(), value);
  }

  /** Whether the text is a JSON literal as it is, not one that needs quotes. */
  boolean isLiteral() {
    return !(signal.type() instanceof ValueType.Enumeration) && !(conversion instanceof Conversion.Mapped);
  }

  boolean isBool() {
    return signal.type() instanceof ValueType.Bool && !(conversion instanceof Conversion.Mapped);
  }
}
