package dev.pawl.grammar.logic.check;

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
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/** The checker of statements. */
final class StatementChecker implements Statement.Visitor<List<Step>> {

  private final Diagnostics diagnostics;
  private final Checking checking;

  /** Calls of which ENO is kept already. */
  private final Set<Expression.Call> remembered = Collections.newSetFromMap(new IdentityHashMap<>());
  private final List<Declaration.Action> running = new ArrayList<>();
  private int loops;

  StatementChecker(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
  }

  List<Step> list(List<Statement> statements) {
    List<Step> steps = new ArrayList<>(statements.size());
    statements.forEach(statement -> steps.addAll(statement.accept(this)));
    return steps;
  }

  @Override public List<Step> visit(Statement.Case e) { return choice(e).stream().toList(); }
  @Override public List<Step> visit(Statement.For e) { return loop(e).stream().toList(); }

  @Override
  public List<Step> visit(Statement.Assignment e) {
    if (e.target() instanceof Expression.Required required) {
      return isOfItsType(required) ? new Statement.Assignment(required.operand(), e.value(), e.position()).accept(this)
          : List.of();
    }
    if (e.value() instanceof Expression.Call call && checking.calls().enabled(call)) {
      return Enabling.of(call, bare -> new Statement.Assignment(e.target(), bare, e.position())).accept(this);
    }
    return assignment(e);
  }

  /** Whether what is written has the type that it must have; true where nothing is known of it. */
  private boolean isOfItsType(Expression.Required target) {
    Optional<LogicType> type = checking.paths().shared(target.operand()).isPresent() ? Optional.empty()
        : checking.quietly().find(target.operand()).map(found -> found.place().type())
            .filter(found -> !(found instanceof LogicType.Unknown));
    boolean fits = type.isEmpty() || type.get() == Elementary.valueOf(target.type());
    if (!fits) {
      diagnostics.error(target.position(), target.what() + " must be " + target.type() + ", but this is "
          + type.get().name(), "a coil writes TRUE or FALSE; a block gives other values");
    }
    return fits;
  }

  @Override
  public List<Step> visit(Statement.Invocation e) {
    Optional<Declaration.Action> action = e.call().callee() instanceof Expression.NameReference reference
        && checking.scope().own(reference.name().key()).isEmpty() ? checking.action(reference.name().key())
        : Optional.empty();
    if (action.isPresent()) {
      return action(action.get(), e.call());
    }
    if (!remembered.remove(e.call()) && e.call().callee() instanceof Expression.NameReference instance
        && checking.done(instance.name()).isPresent()) {
      return Enabling.of(Enabling.remembering(e.call(), instance.name()), bare -> {
        remembered.add(bare);
        return new Statement.Invocation(bare);
      }).accept(this);
    }
    return checking.calls().enabled(e.call()) ? Enabling.of(e.call(), Statement.Invocation::new).accept(this)
        : e.block().map(block -> checking.calls().drawn(e.call(), block))
            .orElseGet(() -> checking.calls().statement(e.call()));
  }

  /** The statements of an action, in the place of its call. */
  private List<Step> action(Declaration.Action action, Expression.Call call) {
    if (!call.arguments().isEmpty()) {
      diagnostics.error(call.position(), "the action " + action.name() + " takes no arguments");
    }
    if (running.contains(action)) {
      diagnostics.error(call.position(), "the action " + action.name() + " calls itself",
          "the standard allows no recursion");
      return List.of();
    }
    running.add(action);
    List<Step> steps = list(action.body());
    running.remove(running.size() - 1);
    return steps;
  }

  @Override
  public List<Step> visit(Statement.Return e) {
    if (!running.isEmpty()) {
      diagnostics.error(e.position(), "RETURN stands inside an ACTION", "write what follows it inside an IF");
    }
    return List.of(new Step.Return(e.position()));
  }

  @Override
  public List<Step> visit(Statement.If e) {
    List<Step.Branch> branches = e.branches().stream().map(this::branch).toList();
    return List.of(new Step.If(branches, list(e.otherwise()), e.position()));
  }

  @Override
  public List<Step> visit(Statement.While e) {
    return List.of(new Step.While(condition(e.condition()), inLoop(e.body()), e.position()));
  }

  @Override
  public List<Step> visit(Statement.Repeat e) {
    List<Step> body = inLoop(e.body());
    return List.of(new Step.Repeat(body, condition(e.until()), e.position()));
  }

  @Override
  public List<Step> visit(Statement.Exit e) {
    insideLoop("EXIT", e.position());
    return List.of(new Step.Exit(e.position()));
  }

  @Override
  public List<Step> visit(Statement.Continue e) {
    insideLoop("CONTINUE", e.position());
    return List.of(new Step.Continue(e.position()));
  }

  @Override
  public List<Step> visit(Statement.Wire e) {
    Optional<LogicType> carried = checking.scope().own(e.name().key()).map(Variable::type);
    Operand operand = checking.expressions().check(e.value(), carried);
    if (operand instanceof Operand.Whole whole) {
      return List.of(new Step.Copy(wire(e, whole.place().type(), Image.zeroes(whole.place().type().size())),
          whole.place(), e.position()));
    }
    if (operand.isWrong()) {
      return List.of();
    }
    LogicType type = carried.orElse(operand instanceof Operand.Typed typed ? typed.type()
        : ((Operand.Number) operand).whole() ? Elementary.DINT : Elementary.LREAL);
    boolean text = type instanceof LogicType.StringType;
    Place place = wire(e, type, text ? Image.text("") : Image.word(0));
    Step given = new Step.Assign(place, checking.adaptation().to(type, operand, "the value"), e.position());
    if (e.condition().isEmpty()) {
      return List.of(given);
    }
    Value first = text ? new Value.Text("", type) : new Value.Constant(0, type);
    return List.of(new Step.Assign(place, first, e.position()), new Step.If(
        List.of(new Step.Branch(condition(e.condition().get()), List.of(given), e.position())), List.of(),
        e.position()));
  }

  @Override public List<Step> visit(Statement.ChartStep e) { return misplaced(e.position()); }
  @Override public List<Step> visit(Statement.ChartTransition e) { return misplaced(e.position()); }

  private List<Step> misplaced(Position position) {
    diagnostics.error(position,
        "steps and transitions stand in the body of a unit, not within a statement or an action");
    return List.of();
  }

  /** Where a wire lies: at one address for all instances, since none carries anything from call to call. */
  private Place wire(Statement.Wire carrier, LogicType type, Image initial) {
    Name name = carrier.name();
    Variable wire = checking.scope().own(name.key()).orElseGet(() -> new Variable(name.text(), type,
        Variable.Role.GLOBAL, checking.units().memory().allocate(initial), false, false, "", initial, name.position()));
    checking.scope().add(wire);
    if (carrier.seen()) {
      checking.units().globals().add(wire);
    }
    return Place.fixed(wire.offset(), wire.type());
  }

  private void insideLoop(String word, Position position) {
    if (loops == 0) {
      diagnostics.error(position, word + " stands outside of any loop");
    }
  }

  private List<Step> inLoop(List<Statement> body) {
    loops++;
    List<Step> steps = list(body);
    loops--;
    return steps;
  }

  private Value condition(Expression expression) {
    return checking.expressions().value(expression, Elementary.BOOL, "the condition");
  }

  private Step.Branch branch(Statement.Branch branch) {
    return new Step.Branch(condition(branch.condition()), list(branch.body()), branch.position());
  }

  private List<Step> assignment(Statement.Assignment assignment) {
    if (assignment.target() instanceof Expression.Part part) {
      return part(assignment, part).stream().toList();
    }
    Optional<Overlaps.Shared> shared = checking.paths().shared(assignment.target());
    if (shared.isPresent()) {
      return shared(assignment, shared.get());
    }
    Optional<PathChecker.Target> target = checking.paths().find(assignment.target());
    Optional<LogicType> wanted = target.map(found -> found.place().type());
    Operand operand = checking.expressions().check(assignment.value(), wanted);
    if (target.isEmpty() || !checking.writable(target.get(), assignment.target().position())) {
      return List.of();
    }
    Place place = target.get().place();
    if (place.type().scalar()) {
      return List.of(new Step.Assign(place, checking.adaptation().to(place.type(), operand, "the value"),
          assignment.position()));
    }
    if (operand instanceof Operand.Whole whole && whole.place().type().equals(place.type())) {
      return whole.copied(place, assignment.position());
    }
    if (!operand.isWrong()) {
      diagnostics.error(operand.position(), "the value must be " + place.type().name() + ", but this is "
          + operand.typeName());
    }
    return List.of();
  }

  private List<Step> shared(Statement.Assignment assignment, Overlaps.Shared part) {
    String barrier = checking.paths().barrier(assignment.target());
    Value value = checking.expressions().value(assignment.value(), part.type(), "the value");
    if (!checking.writable(barrier, assignment.target().position())) {
      return List.of();
    }
    Place wide = Place.fixed(part.wide().offset(), part.wide().type());
    return List.of(new Step.AssignPart(wide, part.shift(), part.type().bits(), value, assignment.position()));
  }

  private Optional<Step> part(Statement.Assignment assignment, Expression.Part part) {
    Optional<PathChecker.Target> target = checking.paths().find(part.owner());
    if (target.isEmpty() || !checking.writable(target.get(), part.position())) {
      return Optional.empty();
    }
    Operand owner = new Operand.Typed(new Value.Load(target.get().place()), part.position());
    return BitPart.check(diagnostics, part, owner)
        .map(found -> new Step.AssignPart(target.get().place(), found.shift(), found.type().bits(),
        checking.expressions().value(assignment.value(), found.type(), "the value"), assignment.position()));
  }

  private Optional<Step> choice(Statement.Case choice) {
    Operand selector = checking.expressions().check(choice.selector(), Optional.empty());
    LogicType type = selector instanceof Operand.Typed typed ? typed.type() : Elementary.DINT;
    boolean countable = type instanceof LogicType.EnumerationType
        || Conversions.operand(type).filter(found -> found.isInteger() || found.isBits()).isPresent();
    if (!countable) {
      diagnostics.error(selector.position(), "CASE selects by an integer, a bit string or an enumeration, but this is "
          + selector.typeName());
    }
    boolean known = countable && !selector.isWrong();
    TreeMap<Long, Step.Label> taken = new TreeMap<>();
    List<Step.Choice> choices = new ArrayList<>();
    for (Statement.Choice written : choice.choices()) {
      List<Step.Label> labels = new ArrayList<>();
      if (known) {
        written.labels().forEach(label -> label(label, type, taken).ifPresent(labels::add));
      }
      choices.add(new Step.Choice(labels, list(written.body())));
    }
    List<Step> otherwise = choice.otherwise().map(this::list).orElse(List.of());
    if (!known) {
      return Optional.empty();
    }
    return Optional.of(new Step.Case(checking.adaptation().to(type, selector, "the selector"), choices, otherwise,
        choice.position()));
  }

  private Optional<Step.Label> label(Statement.Label written, LogicType selector, TreeMap<Long, Step.Label> taken) {
    LogicType type = selector instanceof LogicType.SubrangeType subrange ? subrange.base() : selector;
    int told = diagnostics.errors();
    long low = ((Value.Constant) checking.constants().value(written.low(), type, "a case label")).word();
    long high = written.high().map(expression ->
        ((Value.Constant) checking.constants().value(expression, type, "a case label")).word())
        .orElse(low);
    Position position = written.low().position();
    if (diagnostics.errors() > told) {
      return Optional.empty();
    }
    if (low > high) {
      diagnostics.error(position, "the range " + low + ".." + high + " is empty");
      return Optional.empty();
    }
    var before = taken.floorEntry(high);
    if (before != null && before.getValue().high() >= low) {
      diagnostics.error(position, "this case label occurs twice",
          "the first choice that fits is taken; the second is never reached");
      return Optional.empty();
    }
    Step.Label label = new Step.Label(low, high);
    taken.put(low, label);
    return Optional.of(label);
  }

  private Optional<Step> loop(Statement.For loop) {
    Optional<PathChecker.Target> target = checking.paths().find(loop.variable());
    LogicType type = target.map(found -> found.place().type()).orElse(Elementary.DINT);
    Optional<Elementary> integer = Conversions.operand(type).filter(Elementary::isInteger);
    if (type instanceof LogicType.Unknown) {
      list(loop.body());
      return Optional.empty();
    }
    if (integer.isEmpty()) {
      diagnostics.error(loop.variable().position(), "the variable of a FOR loop must be an integer, but this is "
          + type.name());
    } else if (integer.get() == Elementary.ULINT) {
      diagnostics.error(loop.variable().position(), "the variable of a FOR loop cannot be ULINT", "use LINT or UDINT");
    }
    Elementary counted = integer.orElse(Elementary.DINT);
    Value from = checking.expressions().value(loop.from(), counted, "the start of the loop");
    Value to = checking.expressions().value(loop.to(), counted, "the end of the loop");
    Elementary signed = counted.isUnsigned() ? Elementary.LINT : counted;
    Value by = loop.by().map(expression -> checking.expressions().value(expression, signed, "the increment"))
        .orElse(new Value.Constant(1, signed));
    if (by instanceof Value.Constant constant && constant.word() == 0) {
      diagnostics.error(loop.by().get().position(), "the increment is zero, so the loop would never end");
    }
    List<Step> body = inLoop(loop.body());
    if (target.isEmpty() || integer.isEmpty() || !checking.writable(target.get(), loop.variable().position())) {
      return Optional.empty();
    }
    return Optional.of(new Step.For(target.get().place(), from, to, by, body, loop.position()));
  }
}
