package dev.pawl.grammar.rules.units;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.Exact;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * The look-up of units by the text a rule file writes, such as {@code m/s}, {@code mph} or {@code m/s2}. Each text is resolved
 * once.
 *
 * <p>The commonest units are known here without Indriya, so that a file with no other unit starts without loading it, which
 * takes a tenth of
 * a second. A test holds both to the same values.
 */
public final class UnitTable {

  static final Map<String, ValueType.Quantity> COMMON = Map.ofEntries(
      one("ns", Dimension.TIME, 1, 1_000_000_000), one("us", Dimension.TIME, 1, 1_000_000), one("ms", Dimension.TIME, 1, 1000),
      one("s", Dimension.TIME, 1, 1),
      one("min", Dimension.TIME, 60, 1), one("h", Dimension.TIME, 3600, 1), one("d", Dimension.TIME, 86400, 1),
      one("mm", Dimension.LENGTH, 1, 1000), one("cm", Dimension.LENGTH, 1, 100), one("m", Dimension.LENGTH, 1, 1),
      one("ft", Dimension.LENGTH, 3048, 10_000), one("in", Dimension.LENGTH, 254, 10_000),
      one("m/s", Dimension.SPEED, 1, 1), one("km/h", Dimension.SPEED, 10, 36), one("mph", Dimension.SPEED, 44704, 100_000),
      one("ft/s", Dimension.SPEED, 3048, 10_000), one("m/s2", Dimension.SPEED.per(Dimension.TIME), 1, 1),
      one("A", new Dimension(0, 0, 0, 1, 0, 0), 1, 1),
      one("psi", new Dimension(-1, 1, -2, 0, 0, 0), 45359237L * 980665, 254 * 254 * 100_000L),
      one("bar", new Dimension(-1, 1, -2, 0, 0, 0), 100_000, 1));

  private static final Map<String, ValueType.Quantity> RESOLVED = new ConcurrentHashMap<>();

  /** What is written elsewhere for units that have another spelling here. */
  private static final Map<String, String> OTHER_SPELLINGS = Map.ofEntries(Map.entry("mps", "m/s"), Map.entry("kmh", "km/h"),
      Map.entry("kph", "km/h"), Map.entry("fps", "ft/s"), Map.entry("sec", "s"), Map.entry("secs", "s"), Map.entry("msec", "ms"),
      Map.entry("seconds", "s"), Map.entry("minutes", "min"), Map.entry("hours", "h"), Map.entry("hr", "h"),
      Map.entry("meters", "m"),
      Map.entry("metres", "m"), Map.entry("feet", "ft"), Map.entry("inch", "in"), Map.entry("lbs", "lb"),
      Map.entry("percent", "%"),
      Map.entry("amps", "A"), Map.entry("volts", "V"), Map.entry("degrees", "deg"), Map.entry("celsius", "degC"),
      Map.entry("fahrenheit", "degF"), Map.entry("KW", "kW"), Map.entry("Kg", "kg"), Map.entry("PSI", "psi"),
      Map.entry("RPM", "rpm"), Map.entry("MPH", "mph"), Map.entry("kmph", "km/h"));

  /** How many symbols may be joined by {@code /}. */
  public static final int MOST_SYMBOLS = 8;

  private UnitTable() {}

  /** Whether a text joins more symbols than a unit may have. */
  public static boolean isTooLong(String text) {
    return text.chars().filter(c -> c == '/').count() >= MOST_SYMBOLS;
  }

  /** What to write for a text that is no unit, as a hint. */
  public static Optional<String> hint(String text) {
    if (isTooLong(text)) {
      return Optional.of("a unit may join " + MOST_SYMBOLS + " symbols at most");
    }
    if (text.equals("g")) {
      return Optional.of("g could be a gram or a multiple of gravity: write kg, or m/s2");
    }
    if (QuantityUnits.composesOwnZero(text)) {
      return Optional.of("degC and degF count from a zero of their own and stand alone: write K, such as K/s, and convert");
    }
    String spelling = OTHER_SPELLINGS.get(text);
    return spelling != null ? Optional.of("did you mean " + spelling + "?") : NearName.hint(text, symbols());
  }

  private static Map.Entry<String, ValueType.Quantity> one(String unit, Dimension dimension, long above, long below) {
    return Map.entry(unit, new ValueType.Quantity(unit, dimension, new Scale(Exact.of(above, below), Exact.ZERO)));
  }

  /** The unit, or nothing where the text is none. */
  public static Optional<ValueType.Quantity> find(String text) {
    ValueType.Quantity known = COMMON.containsKey(text) ? COMMON.get(text) : RESOLVED.get(text);
    if (known != null) {
      return Optional.of(known);
    }
    if (isTooLong(text)) {
      return Optional.empty();
    }
    Optional<ValueType.Quantity> resolved = QuantityUnits.resolve(text);
    resolved.ifPresent(unit -> RESOLVED.put(text, unit));
    return resolved;
  }

  /** The symbols that units are made of. */
  public static Collection<String> symbols() {
    List<String> symbols = new ArrayList<>(QuantityUnits.symbols());
    symbols.addAll(List.of("m/s", "km/h", "ft/s", "m/s2"));
    return symbols;
  }
}
