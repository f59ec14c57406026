package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.TypeName;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The way from a type as written to a value type. */
final class TypeResolver {

  private static final Map<String, String> FOREIGN_TYPES = Map.of("boolean", "bool", "Boolean", "bool", "BOOL", "bool",
      "bit", "bool", "real", "number", "float", "number", "double", "number", "int", "number", "REAL", "number", "INT",
      "number");

  private static final int MOST_MEMBERS = 1000;

  private final Names names;
  private final Diagnostics problems;

  TypeResolver(Names names, Diagnostics problems) {
    this.names = names;
    this.problems = problems;
  }

  /** The type, or nothing where it is wrong, which is told. */
  Optional<ValueType> resolve(TypeName type) {
    return type.match(
        bool -> Optional.of(new ValueType.Bool()),
        number -> Optional.of(ValueType.Quantity.PLAIN),
        choice -> Optional.of(enumeration("", choice)),
        this::named);
  }

  ValueType.Enumeration enumeration(String name, TypeName.OneOf choice) {
    if (choice.members().size() > MOST_MEMBERS) {
      problems.error(choice.position(), "an enumeration may have at most " + MOST_MEMBERS + " members");
      return new ValueType.Enumeration(name, List.of(choice.members().get(0).text()));
    }
    Set<String> seen = new HashSet<>();
    List<String> members = new ArrayList<>();
    for (Name member : choice.members()) {
      if (seen.add(member.text())) {
        members.add(member.text());
      } else {
        problems.error(member.position(), "`" + member.text() + "` stands twice in this list");
      }
    }
    return new ValueType.Enumeration(name, members);
  }

  private Optional<ValueType> named(TypeName.Named type) {
    Optional<Declared> entry = names.find(type.text());
    if (entry.isPresent() && entry.get() instanceof Declared.TypeEntry declared) {
      return Optional.of(declared.type());
    }
    Optional<ValueType.Quantity> unit = UnitTable.find(type.text());
    if (unit.isEmpty()) {
      unknown(type);
    }
    return unit.map(found -> found);
  }

  private void unknown(TypeName.Named type) {
    List<String> known = new ArrayList<>(List.of("bool", "number"));
    names.all().forEach(entry -> {
      if (entry instanceof Declared.TypeEntry declared) {
        known.add(declared.type().name());
      }
    });
    problems.error(type.position(), "`" + type.text() + "` is neither a unit nor a declared type",
        FOREIGN_TYPES.containsKey(type.text()) ? "did you mean " + FOREIGN_TYPES.get(type.text()) + "?"
            : NearName.hint(type.text(), known).or(() -> UnitTable.hint(type.text()))
            .orElse("a type is bool, number, a unit such as m/s, or one of (...)"));
  }
}
