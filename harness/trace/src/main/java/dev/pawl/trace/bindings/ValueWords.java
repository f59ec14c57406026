package dev.pawl.trace.bindings;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * How a site spells values, stated once for all signals.
 *
 * @param bools what words mean for bools, beside those that are always known
 * @param unknown words that say that a value is not known, whatever the signal
 */
public record ValueWords(Map<String, Boolean> bools, Set<String> unknown) {

  public static final ValueWords NONE = new ValueWords(Map.of(), Set.of());

  private static final Map<String, Boolean> KNOWN = Map.of("0", false, "1", true, "false", false, "true", true);

  public ValueWords {
    bools = Map.copyOf(bools);
    unknown = Set.copyOf(unknown);
  }

  /** Reads the section {@code values} of a bindings file. */
  static ValueWords read(List<Entry> entries, List<Diagnostic> diagnostics) {
    Map<String, Boolean> bools = new HashMap<>();
    Set<String> unknown = new HashSet<>();
    for (Entry entry : entries) {
      Token meaning = entry.tokens().get(0);
      if (!meaning.is("true") && !meaning.is("false") && !meaning.is("unknown") || entry.tokens().size() == 1) {
        error(diagnostics, entry.position(), "section 'values' lists how true, false and unknown are spelt",
            "write: true ON, 1.0, Closed");
        continue;
      }
      for (Token word : entry.tokens().subList(1, entry.tokens().size())) {
        boolean twice = bools.containsKey(word.text()) || unknown.contains(word.text());
        Boolean known = KNOWN.get(word.text().toLowerCase(Locale.ROOT));
        if (word.is(",")) {
          continue;
        }
        if (twice) {
          error(diagnostics, word.position(), "'" + word.text() + "' is listed twice", "keep one");
        } else if (known != null && !meaning.is(known.toString())) {
          error(diagnostics, word.position(), "'" + word.text() + "' means " + known + " already",
              "leave it out, and bind signals of which the opposite is logged as 'inverted'");
        } else if (meaning.is("unknown")) {
          unknown.add(word.text());
        } else {
          bools.put(word.text(), meaning.is("true"));
        }
      }
    }
    return new ValueWords(bools, unknown);
  }

  private static void error(List<Diagnostic> diagnostics, Position position, String message, String hint) {
    diagnostics.add(Diagnostic.error(position, message, hint));
  }
}
