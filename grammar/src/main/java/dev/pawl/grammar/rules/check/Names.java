package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;

/** All declared names of all files, which share one name space. */
final class Names {

  /**
   * Names that are compared in search of near ones; beyond that a file has so many errors that suggestions help nobody.
   */
  private static final long MOST_COMPARED = 100_000;

  private final Map<String, Declared> entries = new LinkedHashMap<>();
  private final Diagnostics problems;
  private long compared;

  Names(Diagnostics problems) {
    this.problems = problems;
  }

  /** Takes a name, unless it is taken already, which is an error. */
  boolean declare(String name, Declared entry) {
    Declared earlier = entries.putIfAbsent(name, entry);
    if (earlier != null) {
      problems.error(entry.position(), "`" + name + "` is declared already, as " + earlier.kind() + " at "
          + earlier.position(), "each name stands for one thing in all files together");
    }
    return earlier == null;
  }

  /** Warns of a local name that hides a declared one. */
  void shadows(Name local) {
    Declared hidden = entries.get(local.text());
    if (hidden != null && !(hidden instanceof Declared.MissingEntry)) {
      problems.warning(local.position(), "`" + local.text() + "` hides " + hidden.kind()
          + " of the same name, declared at " + hidden.position(),
          "choose another name, so that nobody takes one for the other");
    }
  }

  void declareMissing(String name, Position position) {
    entries.putIfAbsent(name, new Declared.MissingEntry(position));
  }

  Optional<Declared> find(String name) {
    return Optional.ofNullable(entries.get(name));
  }

  Collection<Declared> all() {
    return entries.values();
  }

  /** Tells that a name is unknown, with the nearest of the known ones and of {@code others}. */
  void unknown(Position position, String name, Collection<String> others) {
    problems.error(position, "`" + name + "` is not declared", hint(name, others));
  }

  private String hint(String name, Collection<String> others) {
    compared += entries.size() + others.size();
    if (compared > MOST_COMPARED) {
      return "";
    }
    TreeSet<String> known = new TreeSet<>(entries.keySet());
    known.addAll(others);
    return NearName.hint(name, known).orElse("");
  }

  void unknown(Position position, String name) {
    unknown(position, name, List.of());
  }
}
