package dev.pawl.grammar.logic.drawn;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Supplier;

/** What is drawn at which place of a source, in the words of whoever drew it, and what there is in all. */
public final class Legend {

  /** Elements of one line that are named; an export without line breaks has all of them in one. */
  private static final int MOST = 3;

  private final Map<Integer, NavigableMap<Integer, String>> lines = new LinkedHashMap<>();
  private final List<Supplier<Item>> items = new ArrayList<>();

  /** Notes what stands at a place, such as {@code Lift, network 3, contact base_flag}. */
  public void note(Position position, String what) {
    lines.computeIfAbsent(position.line(), unused -> new TreeMap<>()).putIfAbsent(position.column(), what);
  }

  /** Adds an item behind the others. It is made for whoever wants to see it, since most never do. */
  public void list(Supplier<Item> item) {
    items.add(item);
  }

  /** How many items there are. */
  public int size() {
    return items.size();
  }

  /** All there is in a project: declarations, then each unit's elements in the order of evaluation. */
  public List<Item> items() {
    return items.stream().map(Supplier::get).toList();
  }

  /** What stands at a line; several, where a line has several. */
  public Optional<String> at(int line) {
    return at(line, "");
  }

  /** The same, but only what bears the name of a variable, where there is such. */
  public Optional<String> at(int line, String variable) {
    NavigableMap<Integer, String> all = lines.get(line);
    if (all == null) {
      return Optional.empty();
    }
    String end = " " + variable.toLowerCase(Locale.ROOT);
    Set<String> different = new LinkedHashSet<>(all.values().stream().filter(it -> it.toLowerCase(Locale.ROOT)
        .endsWith(end)).toList());
    if (different.isEmpty()) {
      different.addAll(all.values());
    }
    List<String> named = new ArrayList<>(different).subList(0, Math.min(MOST, different.size()));
    return Optional.of(String.join("; or ", named)
        + (different.size() > MOST ? "; or one of " + (different.size() - MOST) + " more" : ""));
  }

  /** The element that stands at a place, or begins before it in its line. */
  public Optional<String> at(Position position) {
    return Optional.ofNullable(lines.get(position.line())).map(all -> all.floorEntry(position.column()))
        .map(Map.Entry::getValue);
  }

  /** A diagnostic that names the element at its place. */
  public Diagnostic named(Diagnostic diagnostic) {
    return at(diagnostic.position()).map(element -> new Diagnostic(diagnostic.severity(), diagnostic.position(),
        element + ": " + diagnostic.message(), diagnostic.hint())).orElse(diagnostic);
  }
}
