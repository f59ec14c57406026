package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.check.ProgramTable.DeclaredUnit;
import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The finding of variables, their elements, fields and parts. */
final class PathChecker implements Expression.Question<Optional<PathChecker.Target>> {

  private final Diagnostics diagnostics;
  private final Checking checking;

  PathChecker(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
  }

  /**
   * A place that a path leads to.
   *
   * @param barrier why it must not be written, or the empty string
   * @param constant the variable whose value is known, where the path is the bare name of a constant
   */
  record Target(Place place, String barrier, Optional<Variable> constant) {}

  /** The place a path leads to; nothing, after a report, where it leads nowhere. */
  Optional<Target> find(Expression path) {
    return path.accept(this);
  }

  @Override public Optional<Target> visit(Expression.NameReference e) { return root(e.name()); }
  @Override public Optional<Target> visit(Expression.DirectReference e) { return direct(e.address()); }

  @Override
  public Optional<Target> visit(Expression.Member e) {
    if (e.owner() instanceof Expression.NameReference list && checking.scope().find(list.name().key()).isEmpty()
        && checking.units().inList(list.name().key(), e.name().key())) {
      return root(e.name());
    }
    Optional<Scope.Found> done = e.name().key().equals("ENO") && e.owner() instanceof Expression.NameReference instance
        ? checking.done(instance.name()) : Optional.empty();
    if (done.isPresent()) {
      return done.map(found -> new Target(target(found).place(), e.name() + " is an output", Optional.empty()));
    }
    Optional<DeclaredUnit> program = e.owner() instanceof Expression.NameReference owner
        ? checking.program(owner.name()) : Optional.empty();
    return program.isPresent() ? ofProgram(program.get(), e.name())
        : find(e.owner()).flatMap(owner -> member(owner, e.name()));
  }

  /** A variable of a program that another unit names; an input may be given a value so. */
  private Optional<Target> ofProgram(DeclaredUnit program, Name name) {
    Optional<Variable> own = program.scope().own(name.key());
    if (own.isEmpty()) {
      diagnostics.error(name.position(), program.name() + " has no variable " + name,
          NearName.hint(name.text(), program.variables().stream().map(Variable::name).toList()).orElse(""));
    }
    return own.map(variable -> {
      Target target = target(new Scope.Found(variable, false));
      return variable.role() == Variable.Role.INPUT && !variable.constant() && !variable.atInput()
          ? new Target(target.place(), "", target.constant()) : target;
    });
  }

  @Override
  public Optional<Target> visit(Expression.Indexed e) {
    return find(e.owner()).flatMap(owner -> element(owner, e));
  }

  @Override
  public Optional<Target> visit(Expression.Call e) {
    diagnostics.error(e.position(), "the result of a call has no parts", "assign it to a variable first");
    return Optional.empty();
  }

  @Override
  public Optional<Target> otherwise(Expression e) {
    diagnostics.error(e.position(), "this is not a variable");
    return Optional.empty();
  }

  private Optional<Target> root(Name name) {
    String edge = checking.scope().edges().get(name.key());
    if (edge != null) {
      Target block = target(checking.scope().find(edge).orElseThrow());
      return blockMember(block, (BlockType) block.place().type(), new Name("Q", name.position()));
    }
    Optional<Scope.Found> found = checking.scope().find(name.key());
    boolean wire = name.text().indexOf(' ') >= 0;
    if (found.isEmpty() && wire) {
      return Optional.empty();
    }
    if (found.isEmpty() && checking.scope().announced(name.key())) {
      checking.constants().unknown(name.position(), "the first value");
      return Optional.empty();
    }
    if (found.isEmpty()) {
      undeclared(name, "declare it, or give the file that does");
      return Optional.empty();
    }
    return whole(found.get(), name);
  }

  /**
   * Tells of a name that nothing declares.
   *
   * @param otherwise what to do where no other name is like it
   */
  void undeclared(Name name, String otherwise) {
    diagnostics.cause(name.position(), name + " is not declared", checking.suggestion(name.text()).orElse(otherwise),
        "name", name.text());
  }

  private Optional<Target> direct(Name address) {
    return located(address).flatMap(found -> whole(found, address));
  }

  /** The variable at an address; it is declared where no name is. */
  private Optional<Scope.Found> located(Name address) {
    Optional<Scope.Found> found = checking.scope().find(address.key());
    if (found.isEmpty()) {
      checking.units().common().declarations().unnamed(address);
      found = checking.scope().find(address.key());
    }
    return found;
  }

  /** Where the memory of the variable is that an expression names, if that is a part of another's. */
  Optional<Overlaps.Shared> shared(Expression expression) {
    if (expression instanceof Expression.DirectReference direct) {
      return located(direct.address()).flatMap(found -> checking.units().overlaps().of(found.variable()));
    }
    return expression instanceof Expression.NameReference reference
        ? checking.scope().find(reference.name().key())
            .flatMap(found -> checking.units().overlaps().of(found.variable())) : Optional.empty();
  }

  /** Why the variable of that part must not be written, or the empty string. */
  String barrier(Expression expression) {
    Name name = expression instanceof Expression.DirectReference direct ? direct.address()
        : ((Expression.NameReference) expression).name();
    return barrier(checking.scope().find(name.key()).orElseThrow().variable());
  }

  private Optional<Target> whole(Scope.Found found, Name name) {
    Optional<Overlaps.Shared> part = checking.units().overlaps().of(found.variable());
    part.ifPresent(shared -> diagnostics.error(name.position(), name + " is a part of " + shared.wide().name()
        + " and cannot stand here", "use a variable of its own in between"));
    return part.isPresent() ? Optional.empty() : Optional.of(target(found));
  }

  private static Target target(Scope.Found found) {
    Variable variable = found.variable();
    boolean pointer = variable.role() == Variable.Role.IN_OUT;
    LogicType slotType = pointer ? Elementary.LINT : variable.type();
    Place slot = found.inInstance() ? Place.ofInstance(variable.offset(), slotType)
        : Place.fixed(variable.offset(), slotType);
    Place place = pointer ? new Place(new Place.Pointer(slot), 0, List.of(), variable.type()) : slot;
    return new Target(place, barrier(variable), variable.constant() ? Optional.of(variable) : Optional.empty());
  }

  /** The runs of the hidden blocks that find edges, which a unit begins with. */
  List<Step> edges(Position position) {
    List<Step> steps = new ArrayList<>();
    checking.scope().edges().forEach((input, hidden) -> {
      Place block = target(checking.scope().find(hidden).orElseThrow()).place();
      BlockType type = (BlockType) block.type();
      Variable clock = type.variable("CLK").orElseThrow();
      Place value = target(checking.scope().find(input).orElseThrow()).place();
      steps.add(new Step.Assign(block.part(clock.offset(), clock.type()), new Value.Load(value), position));
      steps.add(new Step.Run(block, type, position));
    });
    return steps;
  }

  private static String barrier(Variable variable) {
    if (variable.constant()) {
      return variable.name() + " is a constant";
    }
    if (variable.role() == Variable.Role.INPUT) {
      return variable.name() + " is an input";
    }
    return variable.atInput() ? variable.name() + " is located at the input " + variable.address() : "";
  }

  private Optional<Target> member(Target owner, Name name) {
    LogicType type = owner.place().type();
    if (type instanceof LogicType.Unknown) {
      return Optional.empty();
    }
    return type.match(scalar -> noField(scalar, name), array -> noField(array, name), structure -> {
      Optional<LogicType.Field> field = structure.field(name.text());
      if (field.isEmpty()) {
        diagnostics.error(name.position(), structure.name() + " has no field " + name,
            NearName.hint(name.text(), structure.fields().stream().map(LogicType.Field::name).toList()).orElse(""));
      }
      return field.map(found -> new Target(owner.place().part(found.offset(), found.type()), owner.barrier(),
          Optional.empty()));
    }, block -> blockMember(owner, block, name));
  }

  private Optional<Target> noField(LogicType type, Name name) {
    diagnostics.error(name.position(), "a value of type " + type.name() + " has no field " + name);
    return Optional.empty();
  }

  private Optional<Target> blockMember(Target owner, BlockType block, Name name) {
    Optional<Variable> variable = block.variable(name.text());
    boolean open = variable.isPresent()
        && (variable.get().role() == Variable.Role.INPUT || variable.get().role() == Variable.Role.OUTPUT);
    if (!open) {
      List<String> known = block.variables().stream()
          .filter(found -> found.role() == Variable.Role.INPUT || found.role() == Variable.Role.OUTPUT)
              .map(Variable::name)
          .toList();
      String message = variable.isPresent() ? name + " of " + block.name() + " is not visible from outside"
          : block.name() + " has no input or output " + name;
      diagnostics.error(name.position(), message, NearName.hint(name.text(), known).orElse(""));
      return Optional.empty();
    }
    String barrier = variable.get().role() == Variable.Role.OUTPUT ? name + " is an output of " + block.name() : "";
    return Optional.of(new Target(owner.place().part(variable.get().offset(), variable.get().type()), barrier,
        Optional.empty()));
  }

  private Optional<Target> element(Target owner, Expression.Indexed indexed) {
    if (owner.place().type() instanceof LogicType.Unknown) {
      return Optional.empty();
    }
    if (!(owner.place().type() instanceof LogicType.ArrayType array)) {
      diagnostics.error(indexed.position(), "a value of type " + owner.place().type().name() + " has no elements");
      return Optional.empty();
    }
    if (indexed.indices().size() != array.bounds().size()) {
      diagnostics.error(indexed.position(), array.name() + " takes " + array.bounds().size() + " indices, here are "
          + indexed.indices().size());
      return Optional.empty();
    }
    List<Place.IndexStep> steps = new ArrayList<>();
    int fixed = 0;
    int stride = array.size();
    for (int i = 0; i < array.bounds().size(); i++) {
      LogicType.Bounds bounds = array.bounds().get(i);
      stride /= (int) bounds.length();
      Optional<Value> index = index(indexed.indices().get(i));
      if (index.isEmpty()) {
        return Optional.empty();
      }
      if (index.get() instanceof Value.Constant constant) {
        fixed += stride * constantIndex(constant.word(), bounds, indexed.indices().get(i).position());
      } else {
        steps.add(new Place.IndexStep(index.get(), bounds.low(), bounds.high(), stride, indexed.indices().get(i)
            .position()));
      }
    }
    Place place = owner.place().element(steps, array.element());
    return Optional.of(new Target(place.part(fixed, array.element()), owner.barrier(), Optional.empty()));
  }

  private Optional<Value> index(Expression expression) {
    Operand operand = checking.expressions().check(expression, Optional.empty());
    if (operand.isWrong()) {
      return Optional.empty();
    }
    Optional<Elementary> type = operand instanceof Operand.Typed typed ? Conversions.operand(typed.type())
        : Optional.empty();
    boolean integer = operand instanceof Operand.Number number && number.whole()
        || type.filter(Elementary::isInteger).isPresent();
    if (!integer) {
      diagnostics.error(operand.position(), "an index must be an integer, but this is " + operand.typeName());
      return Optional.empty();
    }
    return Optional.of(operand instanceof Operand.Typed typed ? typed.value()
        : checking.adaptation().to(Elementary.LINT, operand, "the index"));
  }

  private int constantIndex(long index, LogicType.Bounds bounds, Position position) {
    if (index < bounds.low() || index > bounds.high()) {
      diagnostics.error(position, "the index " + index + " lies outside " + bounds.low() + ".." + bounds.high());
      return 0;
    }
    return (int) (index - bounds.low());
  }
}
