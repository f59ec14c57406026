package dev.pawl.grammar.source;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/** What has been found wrong so far; the same thing at the same place is told once. */
public final class Diagnostics {

  private static final int MOST = 500;

  /** Names of one kind that are told of one by one. */
  private static final int MOST_NAMES = 3;

  private static final int LISTED_NAMES = 10;

  private static final Comparator<Diagnostic> IN_FILE = Comparator
      .comparingInt((Diagnostic it) -> it.position().line()).thenComparingInt(it -> it.position().column());

  private final Set<Diagnostic> told = new LinkedHashSet<>();
  private final Map<String, List<Position>> causes = new HashMap<>();
  private final Map<Diagnostic, List<Position>> firstOf = new HashMap<>();
  private final Map<Diagnostic, String> kindOf = new HashMap<>();
  private final Map<Diagnostic, String> nameOf = new HashMap<>();
  private boolean errors;

  /** Takes a diagnostic; from a certain number on they are only summed up in one. */
  public void add(Diagnostic diagnostic) {
    errors |= diagnostic.isError();
    if (told.size() < MOST) {
      told.add(diagnostic);
    } else if (told.size() == MOST) {
      told.add(Diagnostic.error(Position.NOWHERE, "there are more than " + MOST + " problems; only these are shown",
          ""));
    }
  }

  public void error(Position position, String message, String hint) {
    add(Diagnostic.error(position, message, hint));
  }

  /**
   * An error of which there may be many with one cause, such as a name that nothing declares: the first place is told,
   * and how many others there are.
   *
   * @param kind what is lacking, such as a type
   * @param name of what it is lacking
   */
  public void cause(Position position, String message, String hint, String kind, String name) {
    errors = true;
    List<Position> places = causes.computeIfAbsent(kind + " " + name.toUpperCase(Locale.ROOT),
        unused -> new ArrayList<>());
    if (places.isEmpty()) {
      Diagnostic first = Diagnostic.error(position, message, hint);
      add(first);
      firstOf.put(first, places);
      kindOf.put(first, kind);
      nameOf.put(first, name);
    }
    if (!places.contains(position) && places.size() < MOST) {
      places.add(position);
    }
  }

  /** Those that are told, with names that lack the same in one diagnostic where there are many. */
  private List<Diagnostic> grouped() {
    Map<String, List<Diagnostic>> kinds = new LinkedHashMap<>();
    firstOf.keySet().stream().sorted(IN_FILE).forEach(first -> kinds.computeIfAbsent(first.position().file() + "\n"
        + kindOf.get(first), unused -> new ArrayList<>()).add(first));
    Set<Diagnostic> dropped = new HashSet<>();
    Map<Diagnostic, Diagnostic> instead = new HashMap<>();
    for (List<Diagnostic> same : kinds.values()) {
      if (same.size() > MOST_NAMES) {
        Diagnostic first = same.get(0);
        List<String> names = same.stream().skip(1).map(nameOf::get).toList();
        String listed = String.join(", ", names.subList(0, Math.min(LISTED_NAMES, names.size())))
            + (names.size() > LISTED_NAMES ? " and so on" : "");
        instead.put(first, new Diagnostic(first.severity(), first.position(), first.message() + ", and so it is with "
            + names.size() + " other names: " + listed, "give the files that declare them too"));
        dropped.addAll(same.subList(1, same.size()));
      }
    }
    return told.stream().filter(each -> !dropped.contains(each))
        .map(each -> instead.containsKey(each) ? instead.get(each) : counted(each)).toList();
  }

  /** The same diagnostic, with the number of other places that have its cause. */
  private Diagnostic counted(Diagnostic diagnostic) {
    int others = firstOf.getOrDefault(diagnostic, List.of()).size() - 1;
    return others < 1 ? diagnostic : new Diagnostic(diagnostic.severity(), diagnostic.position(),
        diagnostic.message() + Diagnostic.others(others), diagnostic.hint());
  }

  public void error(Position position, String message) {
    error(position, message, "");
  }

  public void warning(Position position, String message, String hint) {
    add(Diagnostic.warning(position, message, hint));
  }

  public boolean hasErrors() {
    return errors;
  }

  /** All of them in the order of these files, and within a file from its beginning to its end. */
  public List<Diagnostic> inOrder(List<String> files) {
    List<Diagnostic> sorted = new ArrayList<>(grouped());
    sorted.sort(Comparator.comparingInt((Diagnostic it) -> files.indexOf(it.position().file()))
        .thenComparing(IN_FILE));
    return sorted;
  }
}
