package dev.pawl.run.ride;

import dev.pawl.grammar.rules.parse.ParsedFile;
import dev.pawl.grammar.rules.parse.RuleReader;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.ForEach;
import dev.pawl.grammar.rules.tree.TypeName;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A file of the rule library: what it needs of a ride.
 *
 * @param zones names of zones
 * @param groups the names that each case of a group is made of, by the group's name
 * @param values what else it needs
 */
record LibraryFile(List<String> zones, Map<String, List<String>> groups, List<Value> values) {

  /**
   * A signal, definition or constant.
   *
   * @param type as written
   * @param comment what the library says of it; empty where it says nothing
   */
  record Value(String name, String type, String comment) {

    boolean isBool() {
      return type.equals("bool");
    }
  }

  static LibraryFile of(Source source) {
    ParsedFile parsed = RuleReader.read(source);
    List<String> zones = new ArrayList<>();
    Map<String, List<String>> groups = new LinkedHashMap<>();
    List<Value> values = new ArrayList<>();
    for (Declaration declaration : parsed.file().declarations()) {
      if (declaration instanceof Declaration.Needs needs) {
        String comment = comment(source.line(needs.position().line()));
        needs.names().forEach(name -> {
          switch (needs.kind()) {
            case ZONE -> zones.add(name.text());
            case GROUP -> groups.putIfAbsent(name.text(), List.of());
            case VALUE -> values.add(new Value(name.text(), needs.type().map(LibraryFile::text).orElse("bool"),
                comment));
          }
        });
      } else if (declaration instanceof Declaration.Rule rule && rule.forEach().isPresent()
          && rule.forEach().get().cases() instanceof ForEach.OfGroup of) {
        groups.put(of.group().text(), rule.forEach().get().variables().stream()
            .map(variable -> variable.zone() ? "zone" : variable.name().text()).toList());
      }
    }
    return new LibraryFile(zones, groups, values);
  }

  private static String comment(String line) {
    int at = line.indexOf("--");
    return at < 0 ? "" : line.substring(at + 2).strip();
  }

  private static String text(TypeName type) {
    return type.match(bool -> "bool", number -> "number", choice -> "bool", TypeName.Named::text);
  }
}
