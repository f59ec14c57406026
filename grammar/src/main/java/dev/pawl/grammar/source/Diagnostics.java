package dev.pawl.grammar.source;

import java.nio.file.Path;
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
import java.util.stream.Collectors;

/** What has been found wrong so far; the same thing at the same place is told once. */
public final class Diagnostics {

  private static final int MOST = 500;

  /** As many are looked at for what they have in common. */
  private static final int MOST_KEPT = 5000;

  /** Names that are told of one by one. */
  private static final int MOST_NAMES = 3;

  private static final int LISTED_NAMES = 10;

  private static final int LISTED_LINES = 5;

  /** What has to be declared somewhere, in the order in which it is listed. */
  private static final List<String> DECLARED = List.of("type", "function", "global variable", "name");

  private static final Comparator<Diagnostic> IN_FILE = Comparator
      .comparingInt((Diagnostic it) -> it.position().line()).thenComparingInt(it -> it.position().column());

  private final Set<Diagnostic> told = new LinkedHashSet<>();
  private final Map<String, List<Position>> causes = new HashMap<>();
  private final Map<Diagnostic, List<Position>> firstOf = new HashMap<>();
  private final Map<Diagnostic, String> kindOf = new HashMap<>();
  private final Map<Diagnostic, String> nameOf = new HashMap<>();
  private int errors;
  private boolean full;

  /** Takes a diagnostic; from a certain number on they are only summed up in one. */
  public void add(Diagnostic diagnostic) {
    errors += diagnostic.isError() ? 1 : 0;
    full = full || told.size() >= MOST_KEPT;
    if (!full) {
      told.add(diagnostic);
    }
  }

  public void error(Position position, String message, String hint) {
    add(Diagnostic.error(position, message, hint));
  }

  /**
   * An error of which there may be many with one cause, such as a name that nothing declares: the first place is told,
   * and how many others there are.
   *
   * @param kind what is lacking: type, function, global variable or name, or what else is told once
   * @param name of what it is lacking
   */
  public void cause(Position position, String message, String hint, String kind, String name) {
    once(Diagnostic.error(position, message, hint), kind, name);
  }

  /** The same of any diagnostic. */
  public void once(Diagnostic first, String kind, String name) {
    errors += first.isError() ? 1 : 0;
    Position position = first.position();
    List<Position> places = causes.computeIfAbsent(kind + " " + name.toUpperCase(Locale.ROOT),
        unused -> new ArrayList<>());
    if (places.isEmpty()) {
      add(first);
      firstOf.put(first, places);
      kindOf.put(first, kind);
      nameOf.put(first, name);
    }
    if (!places.contains(position) && places.size() < MOST) {
      places.add(position);
    }
  }

  /** Those that are told; all that nothing declares is told in one diagnostic. */
  private List<Diagnostic> grouped(Comparator<Diagnostic> order) {
    Set<Diagnostic> dropped = new HashSet<>(calledVariables());
    List<Diagnostic> lacking = strange(firstOf.keySet().stream().filter(first -> DECLARED.contains(kindOf.get(first))
        && !dropped.contains(first)).sorted(order).toList());
    Map<Diagnostic, Diagnostic> instead = new HashMap<>();
    if (lacking.size() > 1) {
      Diagnostic first = lacking.get(0);
      instead.put(first, Diagnostic.error(first.position(), "nothing declares " + listed(lacking),
          "declare them, or give the files that do"));
      dropped.addAll(lacking.subList(1, lacking.size()));
    }
    return told.stream().filter(each -> !dropped.contains(each))
        .map(each -> instead.containsKey(each) ? instead.get(each) : counted(each)).toList();
  }

  /** Functions that are lacking, and stand for variables that are lacking too. */
  private List<Diagnostic> calledVariables() {
    return firstOf.keySet().stream().filter(each -> kindOf.get(each).equals("function")
        && causes.containsKey("name " + nameOf.get(each).toUpperCase(Locale.ROOT))).toList();
  }

  /** Those that resemble nothing that is declared, or are so many that they are hardly misspelt. */
  private List<Diagnostic> strange(List<Diagnostic> lacking) {
    Map<String, Long> many = lacking.stream().collect(Collectors.groupingBy(kindOf::get, Collectors.counting()));
    return lacking.stream().filter(each -> !each.hint().startsWith(NearName.HINT)
        || many.get(kindOf.get(each)) > MOST_NAMES).toList();
  }

  private String listed(List<Diagnostic> lacking) {
    List<String> kinds = new ArrayList<>();
    for (String kind : DECLARED) {
      List<String> names = lacking.stream().filter(each -> kindOf.get(each).equals(kind)).map(each ->
          nameOf.get(each) + " (" + places(lacking.get(0).position().file(), firstOf.get(each)) + ")").toList();
      if (!names.isEmpty()) {
        kinds.add("the " + kind + (names.size() == 1 ? " " : "s ") + first(names, LISTED_NAMES));
      }
    }
    return String.join("; ", kinds);
  }

  /** The lines of a file, and those of others behind their names. */
  private static String places(String file, List<Position> places) {
    Map<String, List<Position>> files = new LinkedHashMap<>();
    files.put(file, new ArrayList<>());
    places.forEach(place -> files.computeIfAbsent(place.file(), unused -> new ArrayList<>()).add(place));
    List<String> told = new ArrayList<>();
    files.forEach((name, own) -> {
      if (!own.isEmpty()) {
        told.add(lines(own) + (name.equals(file) ? "" : " of " + Path.of(name).getFileName()));
      }
    });
    return String.join(", ", told);
  }

  private static String lines(List<Position> places) {
    List<String> lines = places.stream().map(Position::line).distinct().sorted().map(String::valueOf).toList();
    return (lines.size() == 1 ? "line " : "lines ") + first(lines, LISTED_LINES);
  }

  private static String first(List<String> all, int most) {
    String shown = String.join(", ", all.subList(0, Math.min(most, all.size())));
    return all.size() > most ? shown + " and " + (all.size() - most) + " more" : shown;
  }

  /** The same diagnostics, with many that say the same in one. */
  private static List<Diagnostic> alike(List<Diagnostic> sorted) {
    Map<Diagnostic, List<Diagnostic>> same = new LinkedHashMap<>();
    sorted.forEach(each -> same.computeIfAbsent(new Diagnostic(each.severity(), Position.NOWHERE, each.message(),
        each.hint()), unused -> new ArrayList<>()).add(each));
    Map<Diagnostic, Diagnostic> instead = new HashMap<>();
    same.values().stream().filter(all -> all.size() > MOST_NAMES).forEach(all -> {
      all.forEach(each -> instead.put(each, null));
      instead.put(all.get(0), withOthers(all.get(0), all.stream().map(Diagnostic::position).toList()));
    });
    return sorted.stream().filter(each -> !instead.containsKey(each) || instead.get(each) != null)
        .map(each -> instead.getOrDefault(each, each)).toList();
  }

  /** The same diagnostic, with the number of other places that have its cause, and their lines. */
  private Diagnostic counted(Diagnostic diagnostic) {
    List<Position> places = firstOf.getOrDefault(diagnostic, List.of());
    return places.size() < 2 ? diagnostic : withOthers(diagnostic, places);
  }

  private static Diagnostic withOthers(Diagnostic diagnostic, List<Position> places) {
    String others = Diagnostic.others(places.size() - 1);
    boolean near = places.stream().map(place -> place.file() + " " + place.line()).distinct().count() == 1;
    return new Diagnostic(diagnostic.severity(), diagnostic.position(), diagnostic.message() + (near ? others
        : others.substring(0, others.length() - 1) + ", in " + places(diagnostic.position().file(),
        places.subList(1, places.size())) + ")"), diagnostic.hint());
  }

  public void error(Position position, String message) {
    error(position, message, "");
  }

  public void warning(Position position, String message, String hint) {
    add(Diagnostic.warning(position, message, hint));
  }

  public boolean hasErrors() {
    return errors > 0;
  }

  /** How often an error was found so far, also where it is told in one with others. */
  public int errors() {
    return errors;
  }

  /** All of them in the order of these files, and within a file from its beginning to its end. */
  public List<Diagnostic> inOrder(List<String> files) {
    Comparator<Diagnostic> order = Comparator.comparingInt((Diagnostic it) -> files.indexOf(it.position().file()))
        .thenComparing(IN_FILE);
    List<Diagnostic> all = alike(grouped(order).stream().sorted(order).toList());
    if (!full && all.size() <= MOST) {
      return all;
    }
    List<Diagnostic> shown = new ArrayList<>(all.subList(0, Math.min(MOST, all.size())));
    shown.add(0, Diagnostic.error(Position.NOWHERE,
        "there are more than " + MOST + " problems; only these are shown", ""));
    return shown;
  }
}
