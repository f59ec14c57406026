package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.check.ProgramTable.DeclaredUnit;
import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Image;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/** The checker of calls of functions and function block instances. */
final class CallChecker {

  private final Diagnostics diagnostics;
  private final Checking checking;
  private final StandardFunctions standard;
  private final Map<Variable, Integer> firstValues = new IdentityHashMap<>();
  private final Arguments arguments;
  private final Set<DeclaredUnit> called = new HashSet<>();

  CallChecker(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
    this.standard = new StandardFunctions(diagnostics, checking);
    this.arguments = new Arguments(diagnostics);
  }

  /** Whether another unit calls that program. */
  boolean isCalled(int program) {
    return called.stream().anyMatch(unit -> unit.index() == program);
  }

  /** A call inside an expression that wants a value of the given type. */
  Operand value(Expression.Call call, Optional<LogicType> wanted) {
    Operand.Wrong wrong = new Operand.Wrong(call.position());
    if (!(call.callee() instanceof Expression.NameReference reference)) {
      boolean told = call.callee() instanceof Expression.Member member && (checking.paths().find(member.owner())
          .filter(owner -> !(owner.place().type() instanceof LogicType.Unknown)).isEmpty() || method(call));
      if (told) {
        return wrong;
      }
      diagnostics.error(call.position(), "only functions are called inside an expression",
          "call a function block instance in a statement of its own and use its outputs");
      return wrong;
    }
    Name name = reference.name();
    if (checking.scope().find(name.key()).filter(found -> found.variable().role() != Variable.Role.RESULT)
        .isPresent()) {
      diagnostics.error(call.position(), name + " is a variable, not a function",
          "a function block instance is called in a statement of its own");
      return wrong;
    }
    Optional<DeclaredUnit> function = checking.units().function(name.key());
    if (name.key().equals("LOWER_BOUND") || name.key().equals("UPPER_BOUND")) {
      return bound(name, call);
    }
    if (function.isPresent()) {
      Optional<Value.Call> found = fitted(function.get(), call).flatMap(unit -> function(unit, call));
      if (found.isPresent() && function.get().result().isEmpty()) {
        diagnostics.error(call.position(), name + " returns nothing");
        return wrong;
      }
      return found.map(value -> result(value, call.position())).orElse(wrong);
    }
    return standard.call(name, call, wanted);
  }

  /** Whether a call has EN or ENO and the called unit no parameters of these names. */
  boolean enabled(Expression.Call call) {
    boolean given = call.arguments().stream().anyMatch(each -> Enabling.isEnable(each) || Enabling.isDone(each));
    return given && parameters(call).stream().noneMatch(each -> each.key().equals("EN") || each.key().equals("ENO"));
  }

  private List<Variable> parameters(Expression.Call call) {
    Optional<DeclaredUnit> function = call.callee() instanceof Expression.NameReference reference
        ? checking.units().function(reference.name().key()) : Optional.empty();
    if (function.isPresent()) {
      return function.get().variables();
    }
    return checking.quietly().find(call.callee()).map(target -> target.place().type())
        .filter(BlockType.class::isInstance).map(type -> ((BlockType) type).variables()).orElse(List.of());
  }

  private static Operand result(Value.Call call, Position position) {
    LogicType type = call.result().type();
    return type instanceof LogicType.Unknown ? new Operand.Wrong(position)
        : type.scalar() ? new Operand.Typed(call, position)
        : new Operand.Whole(call.result(), Optional.of(call), position);
  }

  /** A call as a statement of its own: the steps it amounts to. */
  List<Step> statement(Expression.Call call) {
    Optional<DeclaredUnit> function = call.callee() instanceof Expression.NameReference reference
        ? checking.units().function(reference.name().key()) : Optional.empty();
    if (function.isPresent()) {
      return fitted(function.get(), call).flatMap(unit -> function(unit, call))
          .<Step>map(value -> new Step.Evaluate(value, call.position())).stream()
          .toList();
    }
    Optional<DeclaredUnit> program = call.callee() instanceof Expression.NameReference reference
        ? checking.program(reference.name()) : Optional.empty();
    if (program.isPresent()) {
      called.add(program.get());
      return List.of(connected(program.get(), call));
    }
    boolean standardFunction = call.callee() instanceof Expression.NameReference reference
        && checking.scope().find(reference.name().key()).isEmpty();
    if (standardFunction) {
      if (!value(call, Optional.empty()).isWrong()) {
        diagnostics.error(call.position(), "the result of this call is not used", "assign it to a variable");
      }
      return List.of();
    }
    if (method(call)) {
      return List.of();
    }
    return instance(call, checking.paths().find(call.callee()));
  }

  /** A call of an instance that is drawn with its type. */
  List<Step> drawn(Expression.Call call, Name block) {
    if (call.callee() instanceof Expression.NameReference reference
        && checking.scope().find(reference.name().key()).isEmpty()) {
      checking.paths().undeclared(reference.name(), "declare it, as a variable of type " + block);
      return List.of();
    }
    Optional<PathChecker.Target> target = checking.paths().find(call.callee());
    if (target.isPresent() && target.get().place().type() instanceof BlockType declared
        && !declared.name().equalsIgnoreCase(block.text())) {
      diagnostics.warning(call.position(), "the instance is drawn as " + block + ", but declared as " + declared.name()
          + ", which is what runs", "change one of the two");
    }
    return instance(call, target);
  }

  private List<Step> instance(Expression.Call call, Optional<PathChecker.Target> target) {
    if (target.isEmpty()) {
      return List.of();
    }
    if (target.get().place().type() instanceof LogicType.Unknown) {
      return List.of();
    }
    if (!(target.get().place().type() instanceof BlockType block)) {
      diagnostics.error(call.position(), "this is a variable of type " + target.get().place().type().name()
          + " and cannot be called");
      return List.of();
    }
    if (target.get().barrier().endsWith("is an input")) {
      diagnostics.error(call.position(), "an instance passed by VAR_INPUT cannot be called", "pass it by VAR_IN_OUT");
    }
    return block(target.get().place(), block, call);
  }

  /** Whether a call is one of a method, which is told. */
  private boolean method(Expression.Call call) {
    if (!(call.callee() instanceof Expression.Member member)) {
      return false;
    }
    Optional<BlockType> block = checking.quietly().find(member.owner()).map(target -> target.place().type())
        .filter(BlockType.class::isInstance).map(BlockType.class::cast)
        .filter(type -> type.variable(member.name().text()).isEmpty());
    block.ifPresent(type -> diagnostics.cause(member.name().position(), member.name() + " of " + type.name()
        + " is called, and METHOD is not supported", "call the block itself, with an input that says what to do",
        "method", ""));
    return block.isPresent();
  }

  /** The lower or the upper bound of a dimension of an array, which is known wherever the array is. */
  private Operand bound(Name name, Expression.Call call) {
    Operand.Wrong wrong = new Operand.Wrong(call.position());
    List<Expression> given = new ArrayList<>();
    for (String parameter : List.of("ARR", "DIM")) {
      call.arguments().stream().filter(each -> each instanceof Expression.Input input
          && input.parameter().key().equals(parameter)).forEach(each -> given.add(((Expression.Input) each).value()));
    }
    call.arguments().stream().filter(Expression.Positional.class::isInstance)
        .forEach(each -> given.add(((Expression.Positional) each).value()));
    if (given.size() != 2 || call.arguments().size() != 2) {
      diagnostics.error(call.position(), name + " takes 2 arguments, here are " + call.arguments().size(),
          "it takes ARR, DIM");
      return wrong;
    }
    Operand array = checking.expressions().check(given.get(0), Optional.empty());
    OptionalLong dimension = checking.constants().whole(given.get(1), "the dimension");
    if (array.isWrong() || dimension.isEmpty()) {
      return wrong;
    }
    if (!(array instanceof Operand.Whole whole && whole.place().type() instanceof LogicType.ArrayType type)
        || dimension.getAsLong() < 1 || dimension.getAsLong() > type.bounds().size()) {
      diagnostics.error(call.position(), name + " needs an array and one of its dimensions, from 1, but the arguments"
          + " are " + array.typeName() + " and " + dimension.getAsLong());
      return wrong;
    }
    LogicType.Bounds bounds = type.bounds().get((int) dimension.getAsLong() - 1);
    return new Operand.Number(BigDecimal.valueOf(name.key().startsWith("L") ? bounds.low() : bounds.high()), true,
        call.position());
  }

  /** The unit itself, or one in which ARRAY[*] has the bounds of what the call gives; nothing after a report. */
  private Optional<DeclaredUnit> fitted(DeclaredUnit unit, Expression.Call call) {
    if (unit.open().isEmpty()) {
      return Optional.of(unit);
    }
    Map<String, LogicType.ArrayType> arrays = new HashMap<>();
    Set<String> given = new HashSet<>();
    for (Arguments.Pair pair : arguments.pairs(unit.name(), unit.variables(), call)) {
      given.add(pair.parameter().key());
      Optional.ofNullable(unit.open().get(pair.parameter().key())).flatMap(open -> array(open, pair, unit.name()))
          .ifPresent(type -> arrays.put(pair.parameter().key(), type));
    }
    unit.variables().stream().filter(variable -> unit.open().containsKey(variable.key())
        && !given.contains(variable.key())).forEach(variable -> diagnostics.error(call.position(), "the call of "
        + unit.name() + " lacks " + variable.name() + ", an ARRAY[*]", "every call gives an array for it"));
    return arrays.size() < unit.open().size() ? Optional.empty()
        : Optional.of(checking.units().fitted(unit, arrays));
  }

  private Optional<LogicType.ArrayType> array(TypeSpecification.OpenArray open, Arguments.Pair pair, String owner) {
    Operand operand = checking.expressions().check(pair.value(), Optional.empty());
    LogicType element = checking.types().resolve(open.element(), "").type();
    if (operand instanceof Operand.Whole whole && whole.place().type() instanceof LogicType.ArrayType array
        && array.bounds().size() == open.dimensions() && array.element().equals(element)) {
      return Optional.of(array);
    }
    if (!operand.isWrong() && !(element instanceof LogicType.Unknown)) {
      diagnostics.error(operand.position(), role(pair.parameter(), owner) + " must be an array of " + element.name()
          + " with as many dimensions as it has *, but this is " + operand.typeName());
    }
    return Optional.empty();
  }

  private List<Step> block(Place instance, BlockType block, Expression.Call call) {
    Optional<DeclaredUnit> open = checking.units().open(block);
    if (open.isPresent()) {
      return fitted(open.get(), call).map(unit -> block(instance, unit.block().orElseThrow(), call)).orElse(List.of());
    }
    List<Step> steps = new ArrayList<>();
    List<Step> after = new ArrayList<>();
    Set<String> given = new HashSet<>();
    for (Arguments.Pair pair : arguments.pairs(block.name(), block.variables(), call)) {
      Variable parameter = pair.parameter();
      given.add(parameter.key());
      if (parameter.role() == Variable.Role.OUTPUT) {
        output(instance.part(parameter.offset(), parameter.type()), parameter, pair, block.name())
            .ifPresent(after::add);
      } else if (parameter.role() == Variable.Role.IN_OUT) {
        bind(instance.part(parameter.offset(), Elementary.LINT), parameter, pair).ifPresent(steps::add);
      } else {
        steps.addAll(input(instance.part(parameter.offset(), parameter.type()), parameter, pair, block.name()));
      }
    }
    missing(block.name(), block.variables(), given, call.position());
    steps.add(new Step.Run(instance, block, call.position()));
    steps.addAll(after);
    return steps;
  }

  /** The run of a program whose inputs and outputs are connected; an input without a connection keeps its value. */
  Step connected(DeclaredUnit program, Expression.Call connections) {
    Value.Call run = function(program, connections).orElseThrow();
    return new Step.Evaluate(run, connections.position());
  }

  private Optional<Value.Call> function(DeclaredUnit function, Expression.Call call) {
    List<Value.InputValue> inputs = new ArrayList<>();
    List<Step> passes = new ArrayList<>();
    List<Step> after = new ArrayList<>();
    Set<String> given = new HashSet<>();
    for (Arguments.Pair pair : arguments.pairs(function.name(), function.variables(), call)) {
      Variable parameter = pair.parameter();
      Place place = Place.fixed(parameter.offset(), parameter.type());
      given.add(parameter.key());
      if (parameter.role() == Variable.Role.OUTPUT) {
        output(place, parameter, pair, function.name()).ifPresent(after::add);
      } else if (parameter.role() == Variable.Role.IN_OUT) {
        bind(Place.fixed(parameter.offset(), Elementary.LINT), parameter, pair).ifPresent(passes::add);
      } else if (parameter.type().scalar()) {
        inputs.add(new Value.InputValue(place, checking.expressions()
            .value(pair.value(), parameter.type(), role(parameter, function.name()))));
      } else {
        passes.addAll(input(place, parameter, pair, function.name()));
      }
    }
    boolean forgets = function.syntax().kind() == Declaration.Kind.FUNCTION;
    for (Variable parameter : forgets ? function.variables() : List.<Variable>of()) {
      if (parameter.role() == Variable.Role.INPUT && given.add(parameter.key())) {
        Place place = Place.fixed(parameter.offset(), parameter.type());
        if (parameter.type().scalar()) {
          inputs.add(new Value.InputValue(place, first(parameter)));
        } else {
          firstOfMany(parameter).ifPresent(first -> passes.add(new Step.Copy(place, first, call.position())));
        }
      }
    }
    missing(function.name(), function.variables(), given, call.position());
    Place result = function.result().map(variable -> Place.fixed(variable.offset(), variable.type()))
        .orElse(Place.fixed(0, Elementary.BOOL));
    return Optional.of(new Value.Call(function.index(), inputs, passes, after, result, call.position()));
  }

  /**
   * Where the first values of an array or a structure stand to be copied from; nothing where the memory is full, which
   * is told.
   */
  private Optional<Place> firstOfMany(Variable parameter) {
    MemoryLayout memory = checking.units().memory();
    if (!firstValues.containsKey(parameter) && !memory.hasRoom(parameter.initial().size())) {
      diagnostics.error(parameter.position(), "the first values of " + parameter.name() + " have no room in the "
          + MemoryLayout.LARGEST + " elementary values there are");
      return Optional.empty();
    }
    int address = firstValues.computeIfAbsent(parameter, unused -> memory.allocate(parameter.initial()));
    return Optional.of(Place.fixed(address, parameter.type()));
  }

  private static Value first(Variable parameter) {
    Image initial = parameter.initial();
    return initial.texts()[0] == null ? new Value.Constant(initial.words()[0], parameter.type())
        : new Value.Text(initial.texts()[0], parameter.type());
  }

  private void missing(String owner, List<Variable> parameters, Set<String> given, Position position) {
    for (Variable parameter : parameters) {
      boolean needed = parameter.role() == Variable.Role.IN_OUT;
      if (needed && !given.contains(parameter.key())) {
        diagnostics.cause(position, "the call of " + owner + " lacks " + parameter.name() + ", a VAR_IN_OUT",
            "every call names the variable it stands for: " + parameter.name() + " := variable", "lacking",
            owner + " " + parameter.name());
      }
    }
  }

  private static boolean unknown(LogicType one, LogicType other) {
    return one instanceof LogicType.Unknown || other instanceof LogicType.Unknown;
  }

  private static String role(Variable parameter, String owner) {
    return parameter.name() + " of " + owner;
  }

  private List<Step> input(Place place, Variable parameter, Arguments.Pair pair, String owner) {
    if (parameter.type().scalar()) {
      Value value = checking.expressions().value(pair.value(), parameter.type(), role(parameter, owner));
      return List.of(new Step.Assign(place, value, pair.position()));
    }
    Operand operand = checking.expressions().check(pair.value(), Optional.empty());
    if (operand instanceof Operand.Whole whole && whole.place().type().equals(parameter.type())) {
      return whole.copied(place, pair.position());
    }
    if (!operand.isWrong()) {
      diagnostics.error(operand.position(), role(parameter, owner) + " must be " + parameter.type().name()
          + ", but this is " + operand.typeName());
    }
    return List.of();
  }

  private Optional<Step> bind(Place slot, Variable parameter, Arguments.Pair pair) {
    Optional<PathChecker.Target> target = checking.paths().find(pair.value());
    if (target.isEmpty() || unknown(target.get().place().type(), parameter.type())) {
      return Optional.empty();
    }
    if (!target.get().place().type().equals(parameter.type())) {
      diagnostics.error(pair.value().position(), parameter.name() + " must be a variable of type " + parameter.type()
          .name() + ", but this is " + target.get().place().type().name(),
          "a VAR_IN_OUT takes variables of its own type only");
      return Optional.empty();
    }
    if (!target.get().barrier().isEmpty()) {
      diagnostics.error(pair.value().position(), target.get().barrier() + " and cannot be passed to " + parameter.name()
          + ", a VAR_IN_OUT");
    }
    return Optional.of(new Step.Bind(slot, target.get().place(), pair.position()));
  }

  private Optional<Step> output(Place source, Variable parameter, Arguments.Pair pair, String owner) {
    Optional<PathChecker.Target> target = checking.paths().find(pair.value());
    if (target.isEmpty() || unknown(target.get().place().type(), parameter.type())) {
      return Optional.empty();
    }
    if (!checking.writable(target.get(), pair.value().position())) {
      return Optional.empty();
    }
    LogicType wanted = target.get().place().type();
    if (!parameter.type().scalar()) {
      if (!wanted.equals(parameter.type())) {
        diagnostics.error(pair.value().position(), role(parameter, owner) + " is " + parameter.type().name()
            + ", but the variable is " + wanted.name());
        return Optional.empty();
      }
      return Optional.of(new Step.Copy(target.get().place(), source, pair.position()));
    }
    Value value = new Value.Load(source);
    if (pair.negated() && parameter.type() != Elementary.BOOL) {
      diagnostics.error(pair.position(), "NOT needs an output of type BOOL, but " + role(parameter, owner) + " is "
          + parameter.type().name());
    } else if (pair.negated()) {
      value = new Value.Complement(value, Elementary.BOOL);
    }
    Operand operand = new Operand.Typed(value, pair.value().position());
    return Optional.of(new Step.Assign(target.get().place(), checking.adaptation()
        .to(wanted, operand, "the variable for " + role(parameter, owner)), pair.position()));
  }
}
