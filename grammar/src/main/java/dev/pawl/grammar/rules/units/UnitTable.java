package dev.pawl.grammar.rules.units;

import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * The look-up of units by the text a rule file writes, such as {@code m/s}, {@code mph} or {@code m/s2}. Each text is
 * resolved once.
 */
public final class UnitTable {

  private static final Map<String, ValueType.Quantity> RESOLVED = new ConcurrentHashMap<>();

  /** What is written elsewhere for units that have another spelling here. */
  private static final Map<String, String> OTHER_SPELLINGS = Map.ofEntries(Map.entry("mps", "m/s"),
      Map.entry("kmh", "km/h"), Map.entry("kph", "km/h"), Map.entry("fps", "ft/s"), Map.entry("sec", "s"),
      Map.entry("secs", "s"), Map.entry("msec", "ms"), Map.entry("seconds", "s"), Map.entry("minutes", "min"),
      Map.entry("hours", "h"), Map.entry("hr", "h"), Map.entry("meters", "m"), Map.entry("metres", "m"),
      Map.entry("feet", "ft"), Map.entry("inch", "in"), Map.entry("lbs", "lb"), Map.entry("percent", "%"),
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
      return Optional.of("degC and degF count from a zero of their own and stand alone: write K, such as K/s, and "
          + "convert");
    }
    String spelling = OTHER_SPELLINGS.get(text);
    return spelling != null ? Optional.of("did you mean " + spelling + "?") : NearName.hint(text, symbols());
  }

  /** The unit, or nothing where the text is none. */
  public static Optional<ValueType.Quantity> find(String text) {
    ValueType.Quantity known = RESOLVED.get(text);
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
