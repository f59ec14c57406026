package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.check.ProgramTable.DeclaredUnit;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Task;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;

/** The checker of a configuration: which programs run, with which globals, and in which tasks. */
final class ConfigurationChecker {

  /** The priority of what no task runs: after all tasks. */
  private static final int LAST = Integer.MAX_VALUE;

  private final Diagnostics diagnostics;
  private final Checking checking;
  private final Declaration.Configuration configuration;
  private final List<Planned> instances = new ArrayList<>();
  private final Map<Declaration.Resource, ProgramTable.Room> rooms = new LinkedHashMap<>();

  private record Planned(Declaration.Resource resource, Declaration.Instance syntax, DeclaredUnit unit) {}

  ConfigurationChecker(Diagnostics diagnostics, Checking checking, Declaration.Configuration configuration) {
    this.diagnostics = diagnostics;
    this.checking = checking;
    this.configuration = configuration;
    boolean alone = configuration.resources().size() == 1;
    configuration.resources().forEach(resource -> rooms.put(resource, alone ? checking.units().common()
        : checking.units().room()));
  }

  void globals(boolean constant) {
    ProgramTable units = checking.units();
    configuration.globals().stream().filter(block -> block.constant() == constant)
        .forEach(block -> units.declareGlobals(block, units.common()));
    rooms.forEach((resource, room) -> resource.globals().stream().filter(block -> block.constant() == constant)
        .forEach(block -> units.declareGlobals(block, room)));
  }

  /** The global variables that only the programs of one resource see, by its name. */
  Map<String, List<Variable>> globalsOfResources() {
    Map<String, List<Variable>> globals = new LinkedHashMap<>();
    rooms.forEach((resource, room) -> {
      if (room.scope() != checking.units().globals()) {
        globals.put(resource.name().orElseThrow().text(), room.scope().variables().stream().distinct().toList());
      }
    });
    return globals;
  }

  /** Makes a unit of each program instance. */
  void instances() {
    if (configuration.resources().stream().allMatch(resource -> resource.programs().isEmpty())) {
      diagnostics.error(configuration.name().position(), "the configuration " + configuration.name()
          + " runs no program", "declare an instance of one in it, such as PROGRAM instance : Type;");
    }
    rooms.forEach((resource, room) -> resource.programs().forEach(instance -> {
      DeclaredUnit program = checking.units().patterns().get(instance.type().key());
      if (program == null) {
        diagnostics.error(instance.type().position(), "there is no PROGRAM " + instance.type(),
            NearName.hint(instance.type().text(), checking.units().patterns().values().stream()
                .map(DeclaredUnit::name).toList()).orElse(
                "give the file that declares it together with this one"));
      } else {
        checking.units().instance(instance, program.syntax(), room)
            .ifPresent(unit -> instances.add(new Planned(resource, instance, unit)));
      }
    }));
  }

  /** The programs of which the configuration makes instances, by their names. */
  static Set<String> run(Declaration.Configuration configuration) {
    Set<String> run = new HashSet<>();
    configuration.resources().forEach(resource -> resource.programs().forEach(instance ->
        run.add(instance.type().key())));
    return run;
  }

  /** The programs that nothing runs, which is warned of. */
  List<DeclaredUnit> idle() {
    List<DeclaredUnit> idle = checking.units().programs().stream()
        .filter(program -> !checking.calls().isCalled(program.index())).toList();
    idle.forEach(program -> diagnostics.warning(program.syntax().name().position(), "the configuration "
        + configuration.name() + " does not run the program " + program.name(),
        "declare an instance of it in a RESOURCE, such as PROGRAM instance WITH task : " + program.name() + ";"));
    return idle;
  }

  /**
   * The tasks, the most urgent first.
   *
   * @param units takes a unit for each program whose inputs or outputs are connected
   */
  List<Task> tasks(List<Unit> units) {
    List<Task> tasks = new ArrayList<>();
    rooms.forEach((resource, room) -> checking.within(room.scope(), () -> tasks(resource, units, tasks)));
    tasks.sort(Comparator.comparingInt(Task::priority));
    return tasks;
  }

  private void tasks(Declaration.Resource resource, List<Unit> units, List<Task> tasks) {
    String owner = configuration.resources().size() == 1 ? ""
        : resource.name().map(Object::toString).orElse("");
    Map<String, List<Integer>> runs = new LinkedHashMap<>();
    resource.tasks().forEach(task -> {
      if (runs.put(task.name().key(), new ArrayList<>()) != null) {
        diagnostics.error(task.name().position(), "two tasks are named " + task.name());
      }
    });
    List<Integer> rest = new ArrayList<>();
    for (Planned planned : instances) {
      if (planned.resource() == resource) {
        int unit = connected(planned, units);
        Optional<List<Integer>> task = planned.syntax().task().map(name -> runs.get(name.key()));
        if (planned.syntax().task().isPresent() && task.isEmpty()) {
          diagnostics.error(planned.syntax().task().get().position(), "there is no task "
              + planned.syntax().task().get(), NearName.hint(planned.syntax().task().get().text(),
                  resource.tasks().stream().map(each -> each.name().text()).toList()).orElse(""));
        }
        task.orElse(rest).add(unit);
      }
    }
    for (Declaration.Task task : resource.tasks()) {
      Task checked = task(owner, task, runs.get(task.name().key()));
      if (checked.programs().isEmpty()) {
        diagnostics.warning(task.name().position(), "no program runs in the task " + task.name(), "");
      } else {
        tasks.add(checked);
      }
    }
    if (!rest.isEmpty()) {
      tasks.add(new Task(owner, Task.SCAN, OptionalLong.empty(), OptionalInt.empty(), LAST, rest));
    }
  }

  private Task task(String owner, Declaration.Task task, List<Integer> programs) {
    OptionalLong interval = task.interval().map(written -> interval(written, task.name())).orElse(OptionalLong.empty());
    OptionalInt single = task.single().map(this::single).orElse(OptionalInt.empty());
    if (never(interval) && task.single().isEmpty()) {
      diagnostics.error(task.name().position(), "nothing starts the task " + task.name(),
          "give it an INTERVAL, such as INTERVAL := T#20ms, or a SINGLE");
    }
    if (task.priority().isEmpty()) {
      diagnostics.warning(task.name().position(), "the task " + task.name()
          + " has no PRIORITY; it counts as the most urgent, 0", "write PRIORITY := 1 or the like");
    }
    long priority = task.priority().map(written -> checking.constants().whole(written, "the priority").orElse(0))
        .orElse(0L);
    if (priority < 0 || priority > 65_535) {
      diagnostics.error(task.priority().get().position(), "a priority goes from 0, the most urgent, to 65535, this is "
          + priority);
      priority = 0;
    }
    return new Task(owner, task.name().text(), never(interval) ? OptionalLong.empty() : interval, single,
        (int) priority, programs);
  }

  private static boolean never(OptionalLong interval) {
    return interval.isEmpty() || interval.getAsLong() == 0;
  }

  /** Nanoseconds; 0 for T#0s, by which a task does not run periodically, and 1 after a report. */
  private OptionalLong interval(Expression written, Name task) {
    Operand operand = checking.expressions().check(written, Optional.of(Elementary.TIME));
    Value value = checking.adaptation().to(Elementary.TIME, operand, "the interval of the task " + task);
    boolean known = value instanceof Value.Constant constant && constant.word() >= 0;
    if (!known && !operand.isWrong()) {
      diagnostics.error(written.position(), "the interval of the task " + task
          + " must be a time known at compile time, and not negative", "write a duration such as T#20ms");
    }
    boolean sound = known && checking.adaptation().fits(Elementary.TIME, operand);
    return OptionalLong.of(sound ? ((Value.Constant) value).word() : 1);
  }

  private OptionalInt single(Expression written) {
    Operand operand = checking.expressions().check(written, Optional.of(Elementary.BOOL));
    if (operand instanceof Operand.Typed typed && typed.value() instanceof Value.Load load
        && load.place().isStatic() && load.place().type() == Elementary.BOOL) {
      return OptionalInt.of(load.place().offset());
    }
    if (!operand.isWrong()) {
      diagnostics.error(written.position(), "SINGLE must be a global BOOL variable",
          "name one of VAR_GLOBAL, or an input such as %IX0.0");
    }
    return OptionalInt.empty();
  }

  /** The unit to run: the instance itself, or one that passes its connections and runs it. */
  private int connected(Planned planned, List<Unit> units) {
    Declaration.Instance syntax = planned.syntax();
    if (syntax.connections().isEmpty()) {
      return planned.unit().index();
    }
    Expression.Call call = new Expression.Call(new Expression.NameReference(syntax.name()), syntax.connections(),
        syntax.name().position());
    Step run = checking.calls().connected(planned.unit(), call);
    units.add(new Unit(units.size(), "connections of " + syntax.name(), Unit.Kind.PROGRAM, Optional.empty(),
        List.of(), List.of(), List.of(run), syntax.name().position()));
    return units.size() - 1;
  }
}
