package dev.pawl.mqtt.payload;

import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.trace.bindings.Conversion;
import dev.pawl.trace.output.ValueSpelling;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.LongFunction;

/** The text of a signal's value as its sender would write it: the opposite of reading under a conversion. */
final class ValueTexts {

  private final LongFunction<String> spelling;
  private final boolean isBool;
  private final boolean isLiteral;

  /**
   * The texts of one signal.
   *
   * @param texts writes values by their index
   */
  ValueTexts(Signal signal, Conversion conversion, ValueSpelling texts) {
    LongFunction<String> usual = value -> texts.of(signal.index(), value);
    spelling = conversion.match(
        plain -> usual,
        inverted -> value -> value == 0 ? "1" : "0",
        scaled -> signal.type().match(bool -> usual, enumeration -> usual, quantity -> value ->
            ValueSpelling.number(Double.longBitsToDouble(value), scaled.toSi(quantity))),
        mapped -> {
          Map<Long, String> codes = new TreeMap<>();
          new TreeMap<>(mapped.values()).forEach((code, value) -> codes.putIfAbsent(value, code));
          return value -> codes.getOrDefault(value, "");
        });
    boolean ownValues = conversion.match(plain -> true, inverted -> true, scaled -> true, mapped -> false);
    isBool = ownValues && signal.type().isBool();
    isLiteral = ownValues && (signal.type().isBool() || signal.type().isNumber());
  }

  /** The value's text; the empty string where no code stands for it. The value is not unknown. */
  String of(long value) {
    return spelling.apply(value);
  }

  /** Whether the text is a JSON literal as it is, not one that needs quotes. */
  boolean isLiteral() {
    return isLiteral;
  }

  boolean isBool() {
    return isBool;
  }
}
