package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.StandardBlock;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** The programs, functions and function blocks; the variables of each are worked out when they are first needed. */
final class ProgramTable {

  private final Diagnostics diagnostics;
  private final Checking checking;
  private final MemoryLayout memory = new MemoryLayout();
  private final Scope globals = Scope.global();
  private final Overlaps overlaps;
  private final VariableDeclarations declarations;
  private final Map<String, DeclaredUnit> units = new LinkedHashMap<>();
  private final Map<String, DeclaredUnit> instances = new LinkedHashMap<>();
  private final Map<String, DeclaredUnit> patterns = new LinkedHashMap<>();
  private final Map<String, Set<String>> lists = new HashMap<>();
  private final Map<String, DeclaredUnit> fitted = new LinkedHashMap<>();
  private int numbered;

  ProgramTable(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
    this.overlaps = new Overlaps(diagnostics, checking.choices(), memory);
    this.declarations = new VariableDeclarations(diagnostics, checking, memory, globals);
  }

  Overlaps overlaps() {
    return overlaps;
  }

  MemoryLayout memory() {
    return memory;
  }

  Scope globals() {
    return globals;
  }

  /** All units, the programs of a configuration after the others. */
  List<DeclaredUnit> all() {
    List<DeclaredUnit> all = new ArrayList<>(units.values().stream().filter(unit -> unit.open().isEmpty()).toList());
    all.addAll(instances.values());
    return all;
  }

  /** The function block of an instance, if the bounds of its arrays come from its calls. */
  Optional<DeclaredUnit> open(BlockType block) {
    return units.values().stream().filter(unit -> !unit.open().isEmpty() && unit.block().filter(own -> own == block)
        .isPresent()).findFirst();
  }

  /** Units whose arrays have the bounds of calls, one for each bounds; more while calls are checked. */
  List<DeclaredUnit> fitted() {
    return List.copyOf(fitted.values());
  }

  /** The units that have arrays without bounds, and that nothing calls. */
  List<DeclaredUnit> uncalled() {
    return units.values().stream().filter(unit -> !unit.open().isEmpty() && fitted.values().stream()
        .noneMatch(other -> other.syntax().name().equals(unit.syntax().name()))).toList();
  }

  /**
   * A unit in which arrays without bounds have those of a call.
   *
   * @param arrays the arrays that the call gives, by the names of the parameters
   */
  DeclaredUnit fitted(DeclaredUnit pattern, Map<String, LogicType.ArrayType> arrays) {
    StringBuilder key = new StringBuilder(pattern.syntax().name().key());
    pattern.open().keySet().forEach(name -> key.append(' ').append(arrays.get(name).bounds()));
    DeclaredUnit known = fitted.get(key.toString());
    if (known != null) {
      return known;
    }
    Declaration.Unit syntax = pattern.syntax();
    List<VariableBlock> blocks = syntax.blocks().stream().map(block -> new VariableBlock(block.section(),
        block.constant(), block.retain(), block.declarations().stream().flatMap(variables ->
        pattern.opens(block, variables) ? variables.names().stream().map(name -> new VariableBlock.Variables(
        List.of(name), variables.address(), bounded(variables.specification(), arrays.get(name.key())),
        variables.initial())) : Stream.of(variables)).toList(), block.position(), block.list())).toList();
    DeclaredUnit unit = new DeclaredUnit(new Declaration.Unit(syntax.kind(), syntax.name(), syntax.returns(), blocks,
        syntax.body(), syntax.actions(), syntax.end()),
        globals.inner(syntax.kind() == Declaration.Kind.FUNCTION_BLOCK), declarations, false);
    unit.index = numbered++;
    fitted.put(key.toString(), unit);
    resolve(unit);
    return unit;
  }

  private static TypeSpecification bounded(TypeSpecification open, LogicType.ArrayType array) {
    Position position = open.position();
    return new TypeSpecification.ArrayOf(array.bounds().stream().map(bounds -> new TypeSpecification.Bounds(
        new Expression.IntegerLiteral(Optional.empty(), BigInteger.valueOf(bounds.low()), position),
        new Expression.IntegerLiteral(Optional.empty(), BigInteger.valueOf(bounds.high()), position))).toList(),
        ((TypeSpecification.OpenArray) open).element(), position);
  }

  /** From now on these programs are patterns, of which only instances run. */
  void configure(Set<String> run) {
    units.values().stream().filter(unit -> unit.syntax().kind() == Declaration.Kind.PROGRAM
        && run.contains(unit.syntax().name().key()))
        .forEach(unit -> patterns.put(unit.syntax().name().key(), unit));
    units.keySet().removeAll(patterns.keySet());
  }

  /** The programs of which instances are made, in a program with a configuration. */
  Map<String, DeclaredUnit> patterns() {
    return patterns;
  }

  /** The programs of which no instances are made. */
  List<DeclaredUnit> programs() {
    return units.values().stream().filter(unit -> unit.syntax().kind() == Declaration.Kind.PROGRAM).toList();
  }

  /** Room for the variables of one more processor. */
  Room room() {
    Scope scope = globals.inner(false);
    return new Room(scope, new VariableDeclarations(diagnostics, checking, memory, scope));
  }

  /** The room of all that stands outside of programs, or in a configuration with but one processor. */
  Room common() {
    return new Room(globals, declarations);
  }

  /** Where the variables of a processor are declared. */
  record Room(Scope scope, VariableDeclarations declarations) {}

  /** One more instance of a program; nothing where its name is taken, which is told. */
  Optional<DeclaredUnit> instance(Declaration.Instance instance, Declaration.Unit program, Room room) {
    Declaration.Unit named = new Declaration.Unit(program.kind(),
        new Name(instance.name().text(), program.name().position()), program.returns(), program.blocks(),
        program.body(), program.actions(), program.end());
    DeclaredUnit unit = new DeclaredUnit(named, room.scope().inner(false),
        room.declarations(), instance.retain());
    if (instances.putIfAbsent(instance.name().key(), unit) != null) {
      diagnostics.error(instance.name().position(), "two program instances are named " + instance.name(),
          "give each a name of its own, also in different resources");
      return Optional.empty();
    }
    return Optional.of(unit);
  }

  void declare(Declaration.Unit unit) {
    Name name = unit.name();
    boolean language = !Elementary.free(name.text()) || StandardBlock.named(name.text()).isPresent()
        || unit.kind() == Declaration.Kind.FUNCTION && StandardFunctions.isStandard(name.key());
    if (language || checking.types().isDeclared(name.key()) || units.containsKey(name.key())) {
      diagnostics.error(name.position(), "the name " + name + " is already "
          + (language ? "part of the language" : "declared"), "give it another name");
      return;
    }
    units.put(name.key(), new DeclaredUnit(unit,
        globals.inner(unit.kind() == Declaration.Kind.FUNCTION_BLOCK), declarations, false));
  }

  /** Whether a list of that name, or a file without its ending, declares the global variable. */
  boolean inList(String list, String variable) {
    return lists.getOrDefault(list, Set.of()).contains(variable);
  }

  void declareGlobals(VariableBlock block, Room room) {
    String file = block.position().file();
    String stem = file.substring(Math.max(file.lastIndexOf('/'), file.lastIndexOf('\\')) + 1);
    String list = stem.contains(".") ? stem.substring(0, stem.indexOf('.')) : stem;
    for (String name : List.of(list, block.list().orElse(list))) {
      Set<String> names = lists.computeIfAbsent(name.toUpperCase(Locale.ROOT), unused -> new HashSet<>());
      block.declarations().forEach(variables -> variables.names().forEach(each -> names.add(each.key())));
    }
    checking.within(room.scope(), () -> room.declarations().globals(block));
  }

  /** Works out the variables of all units, so that all errors in them are reported. */
  void resolveAll() {
    for (DeclaredUnit unit : all()) {
      unit.index = numbered++;
      resolve(unit);
    }
    units.values().stream().filter(unit -> !unit.open().isEmpty()).toList().forEach(this::resolve);
    overlaps.settle();
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

  /** The program of that name, of which there is one instance only; nothing where a configuration makes instances. */
  Optional<DeclaredUnit> program(String key) {
    Optional<DeclaredUnit> program = Optional.ofNullable(units.get(key))
        .filter(unit -> unit.syntax().kind() == Declaration.Kind.PROGRAM);
    program.ifPresent(this::resolve);
    return program;
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

  /** Works out the variables of a unit. */
  void resolve(DeclaredUnit unit) {
    if (unit.start()) {
      checking.within(unit.scope(), () -> {
        unit.syntax().blocks().forEach(block -> block.declarations().forEach(variables -> variables.names()
            .forEach(name -> unit.scope().announce(name.key()))));
        unit.syntax().blocks().stream().sorted(Comparator.comparing(block -> !isLocalConstant(block)))
            .forEach(block -> unit.declarations.section(unit, block));
        unit.syntax().returns().ifPresent(type -> unit.declarations.result(unit, type));
      });
      unit.finish();
    }
  }

  /** Such come first, wherever they stand, so that the bounds of arrays can be made of them. */
  private static boolean isLocalConstant(VariableBlock block) {
    return block.section() == VariableBlock.Section.VAR && block.constant();
  }

  /** A unit and what is known of its variables. */
  static final class DeclaredUnit {

    private int index;
    private final Declaration.Unit syntax;
    private final Scope scope;
    private final VariableDeclarations declarations;
    private final boolean retains;
    private final Optional<BlockType> block;
    private final List<Variable> variables = new ArrayList<>();
    private final Map<String, TypeSpecification.OpenArray> open = new LinkedHashMap<>();
    private int stage;

    DeclaredUnit(Declaration.Unit syntax, Scope scope, VariableDeclarations declarations, boolean retains) {
      this.syntax = syntax;
      this.scope = scope;
      this.declarations = declarations;
      this.retains = retains;
      this.block = syntax.kind() == Declaration.Kind.FUNCTION_BLOCK
          ? Optional.of(new BlockType(syntax.name().text(), Optional.empty()))
          : Optional.empty();
      syntax.blocks().forEach(list -> list.declarations().stream().filter(variables -> opens(list, variables))
          .forEach(variables -> variables.names().forEach(name -> open.put(name.key(),
              (TypeSpecification.OpenArray) variables.specification()))));
    }

    /** Whether parameters are arrays that take their bounds from calls. */
    boolean opens(VariableBlock list, VariableBlock.Variables variables) {
      boolean passed = list.section() == VariableBlock.Section.VAR_IN_OUT && syntax.kind() != Declaration.Kind.PROGRAM
          || (list.section() == VariableBlock.Section.VAR_INPUT
          || list.section() == VariableBlock.Section.VAR_OUTPUT) && syntax.kind() == Declaration.Kind.FUNCTION;
      return passed && variables.specification() instanceof TypeSpecification.OpenArray;
    }

    /** The parameters that take their bounds from calls, by their names. */
    Map<String, TypeSpecification.OpenArray> open() {
      return open;
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

    /** Its number among the units that may run. */
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

    /** Whether all its variables survive a warm restart. */
    boolean retains() {
      return retains;
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
