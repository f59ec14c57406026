package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The variables that a piece of program can name: its own, then the global ones. */
final class Scope {

  private final Optional<Scope> outer;
  private final boolean instance;
  private final Map<String, Variable> variables = new LinkedHashMap<>();
  private final Set<String> announced = new HashSet<>();
  private final Map<String, String> edges = new LinkedHashMap<>();

  private Scope(Optional<Scope> outer, boolean instance) {
    this.outer = outer;
    this.instance = instance;
  }

  static Scope global() {
    return new Scope(Optional.empty(), false);
  }

  /** The scope of a unit; {@code instance} where its variables lie in an instance rather than at fixed addresses. */
  Scope inner(boolean instance) {
    return new Scope(Optional.of(this), instance);
  }

  /** Adds a variable; false where the name is taken in this scope. */
  boolean add(Variable variable) {
    return variables.putIfAbsent(variable.key(), variable) == null;
  }

  /** After a second declaration with another type nobody knows which is meant, and what follows from either. */
  void doubt(Variable second) {
    Variable first = variables.get(second.key());
    if (!first.type().equals(second.type())) {
      variables.put(second.key(), new Variable(first.name(), new LogicType.Unknown(), first.role(), first.offset(),
          first.constant(), first.retain(), first.address(), first.initial(), first.position()));
    }
  }

  /** There will be a variable of that name. */
  void announce(String key) {
    announced.add(key);
  }

  /** Whether there is, or will be, a variable of that name in this scope. */
  boolean announced(String key) {
    return announced.contains(key);
  }

  /** Adds a variable under another name: the address of a located one, or the name in a VAR_EXTERNAL section. */
  void alias(String key, Variable variable) {
    variables.putIfAbsent(key, variable);
  }

  Optional<Variable> own(String key) {
    return Optional.ofNullable(variables.get(key));
  }

  /** The input of that name is read as the edges that a hidden block finds. */
  void edge(String input, String block) {
    edges.put(input, block);
  }

  /** The hidden blocks that find edges, by the name of the input each looks at. */
  Map<String, String> edges() {
    return edges;
  }

  Optional<Found> find(String key) {
    Variable variable = variables.get(key);
    if (variable != null) {
      return Optional.of(new Found(variable, instance && variable.role() != Variable.Role.GLOBAL));
    }
    return outer.flatMap(scope -> scope.find(key));
  }

  /** A variable of the scopes around this one. */
  Optional<Variable> outside(String key) {
    return outer.flatMap(scope -> scope.find(key)).map(Found::variable);
  }

  Collection<Variable> variables() {
    return variables.values();
  }

  List<String> names() {
    List<String> names = new ArrayList<>(variables.values().stream().map(Variable::name)
        .filter(name -> name.indexOf(' ') < 0).toList());
    outer.ifPresent(scope -> names.addAll(scope.names()));
    return names;
  }

  String suggestion(String name) {
    return NearName.hint(name, names()).orElse("declare it in VAR_GLOBAL, or give the file that does");
  }

  /** A variable, and whether it lies in the running instance. */
  record Found(Variable variable, boolean inInstance) {}
}
