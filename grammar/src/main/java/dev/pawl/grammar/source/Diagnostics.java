package dev.pawl.grammar.source;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What has been found wrong so far; the same thing at the same place is told once. */
public final class Diagnostics {

  private static final int MOST = 500;

  private final Set<Diagnostic> told = new LinkedHashSet<>();
  private final Map<String, List<Position>> causes = new HashMap<>();
  private final Map<Diagnostic, List<Position>> firstOf = new HashMap<>();
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
   * @param cause what they have in common
   */
  public void cause(String cause, Position position, String message, String hint) {
    errors = true;
    List<Position> places = causes.computeIfAbsent(cause, unused -> new ArrayList<>());
    if (places.isEmpty()) {
      Diagnostic first = Diagnostic.error(position, message, hint);
      add(first);
      firstOf.put(first, places);
    }
    if (!places.contains(position) && places.size() < MOST) {
      places.add(position);
    }
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
    List<Diagnostic> sorted = new ArrayList<>(told.stream().map(this::counted).toList());
    sorted.sort(Comparator.comparingInt((Diagnostic it) -> files.indexOf(it.position().file()))
        .thenComparingInt(it -> it.position().line()).thenComparingInt(it -> it.position().column()));
    return sorted;
  }
}
