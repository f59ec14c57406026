package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.check.ProgramTable.DeclaredUnit;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Image;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Task;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.CompilationUnit;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** The checker of whole programs: declarations first, then the statements of every unit. */
public final class ProgramChecker {

  private static final Pattern CONVERSION = Pattern.compile("([A-Z]+_)?TO_[A-Z_]+|.*_TRUNC_.*|TRUNC(_.*)?");

  /** Programs that one tool runs when the controller starts and when it stops. */
  private static final Set<String> ONCE = Set.of("_INIT", "_EXIT");

  private final Diagnostics diagnostics;
  private final Checking checking;

  private ProgramChecker(Diagnostics diagnostics, LanguageChoices choices) {
    this.diagnostics = diagnostics;
    this.checking = new Checking(diagnostics, choices);
  }

  /**
   * Checks the sources of one program together.
   *
   * @param diagnostics is told of everything wrong
   * @return the program; to be used only if no error was told
   */
  public static CheckedProgram check(List<CompilationUnit> sources, LanguageChoices choices,
      Diagnostics diagnostics) {
    List<Declaration> configurations = sources.stream().flatMap(source -> source.declarations().stream())
        .filter(Declaration.Configuration.class::isInstance).toList();
    if (configurations.size() < 2) {
      return new ProgramChecker(diagnostics, choices).check(sources);
    }
    diagnostics.error(((Declaration.Configuration) configurations.get(1)).name().position(),
        "there is a second CONFIGURATION, and only one can run", "leave out the others, with what only they run");
    return new ProgramChecker(new Diagnostics(), choices).check(sources);
  }

  /** Whether a name is that of a function of the standard, which has no effect beside its result. */
  public static boolean isStandardFunction(String name) {
    String key = name.toUpperCase(Locale.ROOT);
    return StandardFunctions.isStandard(key) || CONVERSION.matcher(key).matches();
  }

  private CheckedProgram check(List<CompilationUnit> sources) {
    ProgramTable units = checking.units();
    List<Declaration> declarations = sources.stream().flatMap(source -> source.declarations().stream()).toList();
    declarations.forEach(this::declare);
    Optional<ConfigurationChecker> configuration = configuration(declarations);
    checking.within(units.globals(), () -> {
      globals(declarations, configuration, true);
      checking.types().resolveAll();
      globals(declarations, configuration, false);
      configuration.ifPresent(ConfigurationChecker::instances);
      units.resolveAll();
    });
    List<Unit> checked = new ArrayList<>();
    units.all().forEach(unit -> checked.add(unit(unit)));
    for (int i = 0; i < units.fitted().size(); i++) {
      checked.add(unit(units.fitted().get(i)));
    }
    List<DeclaredUnit> uncalled = diagnostics.hasErrors() ? List.of() : units.uncalled();
    uncalled.forEach(unit -> diagnostics.warning(unit.syntax().name().position(), "nothing calls " + unit.name()
        + ", whose ARRAY[*] takes its bounds from calls: its statements were not checked",
        "call it, or leave it out"));
    Set<Integer> idle = configuration.map(present -> present.idle().stream().map(DeclaredUnit::index)
        .collect(Collectors.toSet())).orElse(Set.of());
    List<Task> tasks = configuration.map(present -> present.tasks(checked)).orElseGet(() -> once(checked.stream()
        .filter(unit -> !checking.calls().isCalled(unit.index())).toList()));
    if (tasks.isEmpty() && configuration.isEmpty() && !diagnostics.hasErrors()) {
      String file = sources.isEmpty() ? "" : sources.get(0).file();
      diagnostics.error(new Position(file, 1, 1, 1), "there is no PROGRAM: nothing would run" + declared(declarations),
          "give the file that has one too, or write " + caller(declarations));
    }
    new Recursion(diagnostics, checked).check();
    List<Variable> globals = new ArrayList<>(units.globals().variables().stream().distinct().toList());
    Map<String, List<Variable>> ofResources = configuration.map(ConfigurationChecker::globalsOfResources)
        .orElse(Map.of());
    List<Unit> running = checked.stream().filter(unit -> !idle.contains(unit.index())).toList();
    Map<String, CheckedProgram.Symbol> symbols = SymbolTable.of(running, globals, ofResources, units.overlaps());
    ofResources.values().forEach(globals::addAll);
    SharedWriters.warn(running.stream().filter(unit -> !isOnce(unit.name())).toList(), globals, diagnostics);
    return new CheckedProgram(checked, tasks, globals, symbols, units.memory().image(),
        units.memory().retained(),
        sources.stream().map(CompilationUnit::file).toList());
  }

  /**
   * Without a configuration every program runs once per scan, in the order of the files, but not one that another
   * calls.
   */
  private List<Task> once(List<Unit> units) {
    units.stream().filter(unit -> isOnce(unit.name()) && !unit.body().isEmpty()).forEach(unit -> diagnostics.add(
        Allowance.INIT_PROGRAMS.found(checking.choices(), unit.position(), "the PROGRAM " + unit.name()
            + " is meant to run once, but would run in every scan", "state first values, and leave it out")));
    List<Integer> programs = units.stream().filter(unit -> unit.kind() == Unit.Kind.PROGRAM)
        .sorted(Comparator.comparing(unit -> !isOnce(unit.name()))).map(Unit::index).toList();
    return programs.isEmpty() ? List.of()
        : List.of(new Task("", Task.SCAN, OptionalLong.empty(), OptionalInt.empty(), 0, programs));
  }

  /** What there is instead of a program, in words. */
  private static String declared(List<Declaration> declarations) {
    Map<String, Integer> kinds = new LinkedHashMap<>();
    for (Declaration declaration : declarations) {
      String kind = declaration instanceof Declaration.Unit unit ? unit.kind().toString()
          : declaration instanceof Declaration.TypeDeclaration ? "TYPE" : "VAR_GLOBAL";
      kinds.merge(kind, 1, Integer::sum);
    }
    return kinds.isEmpty() ? "" : "; all there is: " + kinds.entrySet().stream().map(each -> each.getValue() + " "
        + each.getKey()).collect(Collectors.joining(", "));
  }

  /** A program that would run what there is. */
  private static String caller(List<Declaration> declarations) {
    return declarations.stream().filter(declaration -> declaration instanceof Declaration.Unit unit
        && unit.kind() == Declaration.Kind.FUNCTION_BLOCK).map(declaration -> ((Declaration.Unit) declaration).name())
        .reduce((one, other) -> other).map(name -> "one that calls it, such as PROGRAM Main VAR it : " + name
        + "; END_VAR it(); END_PROGRAM").orElse("PROGRAM name ... END_PROGRAM");
  }

  private static boolean isOnce(String program) {
    return ONCE.contains(program.toUpperCase(Locale.ROOT));
  }

  /** What a program does once, before the first scan after a start, or never. */
  private List<Step> once(DeclaredUnit unit, List<Step> body) {
    Position position = unit.syntax().name().position();
    if (unit.name().equalsIgnoreCase("_EXIT")) {
      return List.of(new Step.If(List.of(new Step.Branch(new Value.Constant(0, Elementary.BOOL), body, position)),
          List.of(), position));
    }
    Place done = Place.fixed(checking.units().memory().allocate(Image.word(0)), Elementary.BOOL);
    List<Step> all = new ArrayList<>();
    all.add(new Step.Assign(done, new Value.Constant(1, Elementary.BOOL), position));
    all.addAll(body);
    return List.of(new Step.If(List.of(new Step.Branch(new Value.Complement(new Value.Load(done), Elementary.BOOL), all,
        position)), List.of(), position));
  }

  private Optional<ConfigurationChecker> configuration(List<Declaration> declarations) {
    List<Declaration.Configuration> all = declarations.stream().filter(Declaration.Configuration.class::isInstance)
        .map(Declaration.Configuration.class::cast).toList();
    if (all.isEmpty()) {
      return Optional.empty();
    }
    checking.units().configure(ConfigurationChecker.run(all.get(0)));
    return Optional.of(new ConfigurationChecker(diagnostics, checking, all.get(0)));
  }

  private void declare(Declaration declaration) {
    if (declaration instanceof Declaration.TypeDeclaration type) {
      checking.types().declare(type);
    } else if (declaration instanceof Declaration.Unit unit) {
      checking.units().declare(unit);
    }
  }

  /** Constants come first, so that the bounds of types can be made of them. */
  private void globals(List<Declaration> declarations, Optional<ConfigurationChecker> configuration,
      boolean constant) {
    for (Declaration declaration : declarations) {
      if (declaration instanceof Declaration.Globals globals && globals.block().constant() == constant) {
        checking.units().declareGlobals(globals.block(), checking.units().common());
      }
    }
    configuration.ifPresent(present -> present.globals(constant));
  }

  private Unit unit(DeclaredUnit unit) {
    List<Step> steps = new ArrayList<>();
    checking.within(unit.scope(), () -> {
      checking.actions(unit.syntax(), diagnostics);
      steps.addAll(checking.paths().edges(unit.syntax().name().position()));
      steps.addAll(new StatementChecker(diagnostics, checking).list(unit.syntax().body()));
    });
    List<Step> body = steps;
    Unit.Kind kind = Unit.Kind.valueOf(unit.syntax().kind().name());
    if (kind == Unit.Kind.PROGRAM && isOnce(unit.name()) && !body.isEmpty()
        && checking.choices().allowed().contains(Allowance.INIT_PROGRAMS)) {
      body = once(unit, body);
    }
    List<Variable> resets = unit.variables().stream().filter(variable -> !variable.constant() && resets(kind, variable))
        .toList();
    Optional<Variable> result = unit.result();
    if (kind == Unit.Kind.FUNCTION && result.isPresent() && !Assignments.reach(body, result.get())) {
      diagnostics.warning(unit.syntax().name().position(), "the function " + unit.name() + " never assigns its result",
          "assign " + unit.name() + " := value");
    }
    return new Unit(unit.index(), unit.name(), kind, unit.block(), unit.variables(), resets, body,
        unit.syntax().name().position());
  }

  /** Functions keep nothing from call to call; temporary variables never keep anything. */
  private static boolean resets(Unit.Kind kind, Variable variable) {
    return switch (variable.role()) {
      case TEMPORARY -> true;
      case LOCAL, OUTPUT, RESULT -> kind == Unit.Kind.FUNCTION;
      case INPUT, IN_OUT, GLOBAL -> false;
    };
  }
}
