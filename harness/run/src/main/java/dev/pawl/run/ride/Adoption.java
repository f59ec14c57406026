package dev.pawl.run.ride;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Source;
import dev.pawl.run.ride.Layout.Meaning;
import dev.pawl.run.ride.Layout.Place;
import dev.pawl.trace.bindings.Token;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** The file by which a ride adopts files of the rule library, with a question mark for what only its people can say. */
final class Adoption {

  private static final String BLANK = "? ";

  private final Layout layout;
  private final Map<String, Source> library;
  private final List<Diagnostic> diagnostics;
  private final Map<String, LibraryFile> files = new LinkedHashMap<>();
  private final Map<String, String> defined = new LinkedHashMap<>();
  private final Set<String> blanks = new LinkedHashSet<>();
  private final Set<String> used = new LinkedHashSet<>();

  /**
   * An adoption.
   *
   * @param library the library's files by name
   * @param diagnostics takes what is wrong
   */
  Adoption(Layout layout, Map<String, Source> library, List<Diagnostic> diagnostics) {
    this.layout = layout;
    this.library = library;
    this.diagnostics = diagnostics;
    layout.adopted().forEach(this::read);
    layout.releasing().forEach(place -> defined.put(RideRules.aheadOf(layout.places().get(place).name()), ""));
  }

  private void read(Token name) {
    Source source = library.get(name.text());
    if (source == null) {
      diagnostics.add(Diagnostic.error(name.position(), "the library has no file '" + name.text() + "'",
          NearName.hint(name.text(), library.keySet()).orElse(library.isEmpty() ? "no library lies beside this pawl"
              : "it has " + String.join(", ", library.keySet()))));
      return;
    }
    LibraryFile file = LibraryFile.of(source);
    List<String> zones = layout.places().stream().map(Place::name).toList();
    file.zones().stream().filter(zone -> !zones.contains(zone)).forEach(zone ->
        diagnostics.add(Diagnostic.error(name.position(), name.text() + " needs a zone '" + zone
            + "', and the layout has none", "call one of the zones so, or do not adopt this file")));
    files.put(name.text(), file);
  }

  /** Names that nobody but the ride's people can say what they are; empty where the file is whole. */
  Set<String> blanks() {
    return blanks;
  }

  /** The file; to be asked before {@link #blanks}. */
  String text(Path folder) {
    StringBuilder text = new StringBuilder("-- What the rules of the library need, in this ride's terms.\n");
    StringBuilder names = new StringBuilder();
    StringBuilder groups = new StringBuilder();
    groups().forEach((group, variables) -> groups.append(group(group, variables)));
    Map<String, LibraryFile.Value> values = new LinkedHashMap<>();
    files.values().forEach(file -> file.values().forEach(value -> values.putIfAbsent(value.name(), value)));
    values.values().forEach(value -> names.append(value(value)));
    defined.forEach((name, line) -> names.append(line));
    layout.meanings().forEach(this::requireUse);
    if (!blanks.isEmpty()) {
      text.append("-- For each line with a question mark write what it is here: input NAME : TYPE, output NAME : TYPE,"
          + "\n-- constant NAME = VALUE or define NAME = CONDITION. Then give this file the ending .rules.\n");
    }
    text.append('\n').append(names).append('\n').append(groups).append('\n');
    files.keySet().forEach(name -> text.append("use \"").append(path(folder, library.get(name))).append("\"\n"));
    return text.toString();
  }

  private static String path(Path folder, Source file) {
    Path target = Path.of(file.name()).toAbsolutePath().normalize();
    Path from = folder.toAbsolutePath().normalize();
    return (from.getRoot().equals(target.getRoot()) ? from.relativize(target) : target).toString().replace('\\', '/');
  }

  private Map<String, List<String>> groups() {
    Map<String, List<String>> groups = new LinkedHashMap<>();
    files.values().forEach(file -> file.groups().forEach((group, variables) -> groups.merge(group, variables,
        (one, other) -> one.isEmpty() ? other : one)));
    return groups;
  }

  private String group(String group, List<String> variables) {
    boolean holding = variables.contains("open") || variables.contains("ahead_occupied");
    List<String> cases = new ArrayList<>();
    for (int place = 0; place < layout.places().size(); place++) {
      if (!holding || layout.releasing().contains(place)) {
        int number = place;
        cases.add("(" + variables.stream().map(variable -> part(group, variable, number))
            .collect(Collectors.joining(", ")) + ")");
      }
    }
    return "group " + group + " = (" + String.join(",\n  ", cases) + ")\n\n";
  }

  private String part(String group, String variable, int place) {
    Place of = layout.places().get(place);
    return switch (variable) {
      case "zone" -> of.name();
      case "open" -> of.released().orElseThrow();
      case "flag" -> group.startsWith("exit") ? layout.end(place) : of.flag();
      default -> named(of.name() + "_" + variable);
    };
  }

  /** A name that a group speaks of; where nobody has said what it is, it is a blank. */
  private String named(String name) {
    if (!layout.signals().containsKey(name) && !defined.containsKey(name)) {
      defined.put(name, line(new LibraryFile.Value(name, "bool", "")));
    }
    return name;
  }

  private String value(LibraryFile.Value value) {
    String line = layout.signals().containsKey(value.name()) || defined.containsKey(value.name()) ? "" : line(value);
    defined.remove(value.name(), "");
    return line;
  }

  private String line(LibraryFile.Value value) {
    String comment = value.comment().isEmpty() ? "" : " -- " + value.comment();
    Meaning meaning = layout.meanings().get(value.name());
    if (meaning == null) {
      blanks.add(value.name());
      return BLANK + value.name() + " : " + value.type() + comment + "\n";
    }
    used.add(value.name());
    boolean number = !value.isBool() && meaning.text().matches("-?[0-9][0-9.]*(\\s.*)?");
    return (number ? "constant " : "define ") + value.name() + " = " + meaning.text() + comment + "\n";
  }

  private void requireUse(String name, Meaning meaning) {
    if (!used.contains(name)) {
      Set<String> open = new LinkedHashSet<>(blanks);
      diagnostics.add(Diagnostic.error(meaning.position(), "no adopted rule needs '" + name + "'",
          NearName.hint(name, open).orElse("take the line away, or adopt the file that needs it")));
    }
  }
}
