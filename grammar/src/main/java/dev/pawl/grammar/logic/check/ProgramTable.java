package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.StandardBlock;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostics;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The programs, functions and function blocks; the variables of each are worked out when they are first needed. */
final class ProgramTable {

  private final Diagnostics diagnostics;
  private final Checking checking;
  private final MemoryLayout memory = new MemoryLayout();
  private final Scope globals = Scope.global();
  private final VariableDeclarations declarations;
  private final Map<String, DeclaredUnit> units = new LinkedHashMap<>();

  ProgramTable(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
    this.declarations = new VariableDeclarations(diagnostics, checking, memory, globals);
  }

  MemoryLayout memory() {
    return memory;
  }

  Scope globals() {
    return globals;
  }

  List<DeclaredUnit> all() {
    return new ArrayList<>(units.values());
  }

  void declare(Declaration.Unit unit) {
    Name name = unit.name();
    boolean language = Elementary.named(name.text()).isPresent() || StandardBlock.named(name.text()).isPresent()
        || unit.kind() == Declaration.Kind.FUNCTION && StandardFunctions.isStandard(name.key());
    if (language || checking.types().isDeclared(name.key()) || units.containsKey(name.key())) {
      diagnostics.error(name.position(), "the name " + name + " is already "
          + (language ? "part of the language" : "declared"));
      return;
    }
    units.put(name.key(), new DeclaredUnit(units.size(), unit,
        globals.inner(unit.kind() == Declaration.Kind.FUNCTION_BLOCK)));
  }

  void declareGlobals(Declaration.Globals block) {
    checking.within(globals, () -> declarations.globals(block.block()));
  }

  /** Works out the variables of all units, so that all errors in them are reported. */
  void resolveAll() {
    units.values().forEach(this::resolve);
  }

  Optional<BlockType> block(Name name) {
    DeclaredUnit unit = units.get(name.key());
    if (unit == null || unit.syntax().kind() != Declaration.Kind.FUNCTION_BLOCK) {
      return Optional.empty();
    }
    if (unit.underWay()) {
      diagnostics.error(name.position(), "the function block " + unit.name() + " contains itself");
      return Optional.of(StandardBlock.R_TRIG.type());
    }
    resolve(unit);
    return unit.block();
  }

  Optional<DeclaredUnit> function(String key) {
    DeclaredUnit unit = units.get(key);
    if (unit == null || unit.syntax().kind() != Declaration.Kind.FUNCTION) {
      return Optional.empty();
    }
    resolve(unit);
    return Optional.of(unit);
  }

  List<String> blockNames() {
    return units.values().stream().filter(unit -> unit.syntax().kind() == Declaration.Kind.FUNCTION_BLOCK)
        .map(DeclaredUnit::name).toList();
  }

  List<String> functionNames() {
    return units.values().stream().filter(unit -> unit.syntax().kind() == Declaration.Kind.FUNCTION)
        .map(DeclaredUnit::name)
        .toList();
  }

  private void resolve(DeclaredUnit unit) {
    if (unit.start()) {
      checking.within(unit.scope(), () -> {
        unit.syntax().blocks().forEach(block -> declarations.section(unit, block));
        unit.syntax().returns().ifPresent(type -> declarations.result(unit, type));
      });
      unit.finish();
    }
  }

  /** A unit and what is known of its variables. */
  static final class DeclaredUnit {

    private final int index;
    private final Declaration.Unit syntax;
    private final Scope scope;
    private final Optional<BlockType> block;
    private final List<Variable> variables = new ArrayList<>();
    private int stage;

    DeclaredUnit(int index, Declaration.Unit syntax, Scope scope) {
      this.index = index;
      this.syntax = syntax;
      this.scope = scope;
      this.block = syntax.kind() == Declaration.Kind.FUNCTION_BLOCK
          ? Optional.of(new BlockType(syntax.name().text(), Optional.empty()))
          : Optional.empty();
    }

    private boolean start() {
      return stage == 0 && ++stage == 1;
    }

    private void finish() {
      stage = 2;
    }

    private boolean underWay() {
      return stage == 1;
    }

    int index() {
      return index;
    }

    String name() {
      return syntax.name().text();
    }

    Declaration.Unit syntax() {
      return syntax;
    }

    Scope scope() {
      return scope;
    }

    Optional<BlockType> block() {
      return block;
    }

    List<Variable> variables() {
      return variables;
    }

    Optional<Variable> result() {
      return variables.stream().filter(variable -> variable.role() == Variable.Role.RESULT).findFirst();
    }
  }
}
