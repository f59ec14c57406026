package dev.pawl.grammar.rules.check;

import java.util.Map;
import java.util.Set;

/** The forms that are written like calls, with how each is written. */
public final class Builtins {

  static final Map<String, String> FORMS = Map.ofEntries(
      Map.entry("rises", "rises(p)"), Map.entry("falls", "falls(p)"), Map.entry("changes", "changes(x)"),
      Map.entry("previous", "previous(x)"), Map.entry("rate", "rate(x)"), Map.entry("speed", "speed(a, b, 1.5 m)"),
      Map.entry("occupied", "occupied(z)"), Map.entry("trains", "trains(z)"), Map.entry("enters", "enters(z)"),
      Map.entry("leaves", "leaves(z)"), Map.entry("backs_out", "backs_out(z)"), Map.entry("miscounts", "miscounts(z)"));

  public static final Set<String> NAMES = FORMS.keySet();

  private Builtins() {}

  static int arguments(String name) {
    return name.equals("speed") ? 3 : 1;
  }
}
