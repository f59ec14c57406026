package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.check.ProgramTable.DeclaredUnit;
import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The parts of the checker, as they see one another, and the scope that is being checked. */
final class Checking {

  private final LanguageChoices choices;
  private final ConstantFolder folder;
  private final Adaptation adaptation;
  private final TypeTable types;
  private final Constants constants;
  private final Initializers initializers;
  private final PathChecker paths;
  private final PathChecker quiet;
  private final ExpressionChecker expressions;
  private final CallChecker calls;
  private final ProgramTable units;
  private final Diagnostics diagnostics;
  private Scope scope = Scope.global();
  private Map<String, Declaration.Action> actions = Map.of();

  Checking(Diagnostics diagnostics, LanguageChoices choices) {
    this.diagnostics = diagnostics;
    this.choices = choices;
    this.folder = new ConstantFolder(diagnostics);
    this.adaptation = new Adaptation(diagnostics, choices, folder);
    this.types = new TypeTable(diagnostics, this);
    this.constants = new Constants(diagnostics, this);
    this.initializers = new Initializers(diagnostics, this);
    this.paths = new PathChecker(diagnostics, this);
    this.quiet = new PathChecker(new Diagnostics(), this);
    this.expressions = new ExpressionChecker(diagnostics, this);
    this.calls = new CallChecker(diagnostics, this);
    this.units = new ProgramTable(diagnostics, this);
  }

  LanguageChoices choices() {
    return choices;
  }

  ConstantFolder folder() {
    return folder;
  }

  Adaptation adaptation() {
    return adaptation;
  }

  TypeTable types() {
    return types;
  }

  Constants constants() {
    return constants;
  }

  Initializers initializers() {
    return initializers;
  }

  PathChecker paths() {
    return paths;
  }

  /** A path checker that diagnostics nothing about the path itself. */
  PathChecker quietly() {
    return quiet;
  }

  ExpressionChecker expressions() {
    return expressions;
  }

  CallChecker calls() {
    return calls;
  }

  ProgramTable units() {
    return units;
  }

  Optional<BlockType> block(Name name) {
    return units.block(name);
  }

  List<String> blockNames() {
    return units.blockNames();
  }

  /** A hint at the variable or enumeration member that was probably meant. */
  Optional<String> suggestion(String name) {
    List<String> known = new ArrayList<>(scope.names());
    known.addAll(types.memberNames());
    return NearName.hint(name, known);
  }

  /** The variable that holds ENO of an instance of this unit, where that is asked for and the block has none itself. */
  Optional<Scope.Found> done(Name instance) {
    boolean own = scope.own(instance.key()).filter(variable -> variable.role() == Variable.Role.LOCAL
        && variable.type() instanceof BlockType block && block.variable("ENO").isEmpty()).isPresent();
    return own ? scope.find(instance.done().key()) : Optional.empty();
  }

  /** The action of that name of the unit at hand. */
  Optional<Declaration.Action> action(String key) {
    return Optional.ofNullable(actions.get(key));
  }

  /** From now on the actions of another unit are at hand; two of one name are reported. */
  void actions(Declaration.Unit unit, Diagnostics diagnostics) {
    actions = new HashMap<>();
    for (Declaration.Action action : unit.actions()) {
      if (scope.own(action.name().key()).isPresent() || actions.put(action.name().key(), action) != null) {
        diagnostics.error(action.name().position(), action.name() + " is already declared in this " + unit.kind(),
            "give one of the two another name");
      }
    }
  }

  /** Whether what a path leads to may be written; where not, that is told. */
  boolean writable(PathChecker.Target target, Position position) {
    return writable(target.barrier(), position);
  }

  /**
   * The same.
   *
   * @param barrier why it must not be written, or the empty string
   */
  boolean writable(String barrier, Position position) {
    if (barrier.endsWith(" is an input") || barrier.contains(" is located at the input ")) {
      diagnostics.once(Allowance.WRITTEN_INPUTS.found(choices, position, barrier + " and cannot be written",
          "write a variable of its own"), "written input", barrier);
      return choices.allowed().contains(Allowance.WRITTEN_INPUTS);
    }
    if (!barrier.isEmpty()) {
      diagnostics.error(position, barrier + " and cannot be written");
    }
    return barrier.isEmpty();
  }

  /** The program that is named so; that it is, is told once. */
  Optional<DeclaredUnit> program(Name name) {
    Optional<DeclaredUnit> program = scope.find(name.key()).isPresent() ? Optional.empty() : units.program(name.key());
    program.ifPresent(unit -> diagnostics.once(Allowance.PROGRAM_NAMES.found(choices, name.position(), name
        + " is a PROGRAM, and programs run by tasks, not by calls of their names",
        "make it a FUNCTION_BLOCK, and call an instance of it"), "program", ""));
    return program;
  }

  Scope scope() {
    return scope;
  }

  /** Does something within another scope. */
  void within(Scope inner, Runnable work) {
    Scope outer = scope;
    scope = inner;
    work.run();
    scope = outer;
  }
}
