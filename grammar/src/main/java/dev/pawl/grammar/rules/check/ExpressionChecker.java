package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.tree.BinaryOperator;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.source.Position;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** Resolves one expression: its names, its type, its units. What is wrong is told where it stands, and once. */
final class ExpressionChecker implements Expression.Visitor<Checked> {

  private final Context context;
  private final Map<String, Checked> locals;
  private final Tolerance tolerance;
  private final Position use;
  private final NumberChecker numbers;
  private final CallChecker calls;

  ExpressionChecker(Context context) {
    this(context, Map.of(), Tolerance.NONE);
  }

  ExpressionChecker(Context context, Map<String, Checked> locals, Tolerance tolerance) {
    this(context, locals, tolerance, null);
  }

  private ExpressionChecker(Context context, Map<String, Checked> locals, Tolerance tolerance, Position use) {
    this.context = context;
    this.locals = locals;
    this.tolerance = tolerance;
    this.use = use;
    this.numbers = new NumberChecker(this, tolerance);
    this.calls = new CallChecker(this, context, tolerance);
  }

  /** A checker that reports at the place where a definition is used, for what only its arguments make wrong. */
  ExpressionChecker at(Position place) {
    return new ExpressionChecker(context, locals, tolerance, place);
  }

  /** The same checker for what a rule requires. */
  ExpressionChecker with(Tolerance other) {
    return new ExpressionChecker(context, locals, other, use);
  }

  /** Where to report what is wrong at a position: the use of the definition that is being put in place, if any. */
  Position place(Position position) {
    return use == null ? position : use;
  }

  void error(Position position, String message, String hint) {
    context.problems.error(place(position), message, hint);
  }

  Checked check(Expression expression) {
    if (!context.enter()) {
      context.leave();
      error(expression.position(), "definitions and operators are nested too deep here",
          "split what stands here into simpler rules");
      return Checked.FAILED;
    }
    try {
      Checked value = expression.accept(this);
      if (value.extent().isTooLarge()) {
        error(expression.position(), "this grows to more than " + Extent.MOST_OPERATIONS + " operations, or "
            + Extent.DEEPEST + " inside each other, once its definitions are put in place",
            "split what stands here into simpler rules");
        return Checked.FAILED;
      }
      return value;
    } finally {
      context.leave();
    }
  }

  @Override public Checked visit(Expression.Number e) { return numbers.literal(e, false, false); }
  @Override public Checked visit(Expression.Truth e) {
    return new Checked.Condition(new BoolExpr.Constant(e.value()), Extent.LEAF);
  }
  @Override public Checked visit(Expression.Unread e) { return Checked.FAILED; }
  @Override public Checked visit(Expression.Call e) { return calls.check(e); }
  @Override public Checked visit(Expression.Negative e) { return numbers.negative(e); }
  @Override public Checked visit(Expression.Not e) { return map(condition(e.operand()), BoolExpr.Not::new); }
  @Override public Checked visit(Expression.HeldFor e) {
    return lasting(e.operand(), e.duration(), BoolExpr.HeldFor::new);
  }
  @Override public Checked visit(Expression.InLast e) {
    return lasting(e.operand(), e.duration(), BoolExpr.InLast::new);
  }
  @Override public Checked visit(Expression.CountInLast e) { return numbers.countInLast(e); }
  @Override public Checked visit(Expression.CountSince e) { return numbers.countSince(e); }
  @Override public Checked visit(Expression.TimeSince e) { return numbers.timeSince(e); }
  @Override public Checked visit(Expression.Window e) { return numbers.window(e); }

  @Override
  public Checked visit(Expression.TraceEdge e) {
    return new Checked.Condition(e.start() ? new BoolExpr.TraceStart() : new BoolExpr.TraceEnd(), Extent.LEAF);
  }

  @Override
  public Checked visit(Expression.Binary binary) {
    if (binary.operator().isComparison()) {
      return numbers.compare(binary);
    }
    if (!binary.operator().isLogic()) {
      return numbers.arithmetic(binary);
    }
    Optional<Checked.Condition> left = condition(binary.left());
    Optional<Checked.Condition> right = condition(binary.right());
    if (left.isEmpty() || right.isEmpty()) {
      return Checked.FAILED;
    }
    BoolExpr a = left.get().expression();
    BoolExpr b = right.get().expression();
    Extent extent = left.get().extent().with(right.get().extent());
    return new Checked.Condition(logic(binary.operator(), a, b), extent);
  }

  private static BoolExpr logic(BinaryOperator operator, BoolExpr left, BoolExpr right) {
    return switch (operator) {
      case SINCE -> new BoolExpr.Since(left, right);
      case AND -> new BoolExpr.And(left, right);
      case OR -> new BoolExpr.Or(left, right);
      case IMPLIES -> new BoolExpr.Or(new BoolExpr.Not(left), right);
      case MULTIPLY, DIVIDE, ADD, SUBTRACT, EQUAL, NOT_EQUAL, LESS, AT_MOST, GREATER, AT_LEAST ->
          throw new IllegalArgumentException(operator.symbol());
    };
  }

  /** Makes a condition of one and a duration. */
  private interface Lasting {
    BoolExpr of(BoolExpr operand, long duration);
  }

  private Checked lasting(Expression operand, Expression duration, Lasting form) {
    Optional<Checked.Condition> condition = condition(operand);
    Optional<Long> nanoseconds = duration(duration);
    return nanoseconds.isEmpty() ? Checked.FAILED : map(condition, expression ->
        form.of(expression, nanoseconds.get()));
  }

  Checked map(Optional<Checked.Condition> condition, Function<BoolExpr, BoolExpr> form) {
    return condition.<Checked>map(c -> new Checked.Condition(form.apply(c.expression()), c.extent().more()))
        .orElse(Checked.FAILED);
  }

  @Override
  public Checked visit(Expression.Reference reference) {
    Checked local = locals.get(reference.name());
    if (local != null) {
      return local;
    }
    Optional<Declared> entry = context.names.find(reference.name());
    if (entry.isEmpty()) {
      unknown(reference);
      return Checked.FAILED;
    }
    return value(reference, entry.get());
  }

  private void unknown(Expression.Reference reference) {
    if (Builtins.FORMS.containsKey(reference.name())) {
      error(reference.position(), "`" + reference.name() + "` needs its operand in parentheses",
          "write " + Builtins.FORMS.get(reference.name()));
    } else {
      context.names.unknown(reference.position(), reference.name(), locals.keySet());
    }
  }

  private Checked value(Expression.Reference reference, Declared entry) {
    return entry.accept(new Declared.Visitor<>() {
      @Override public Checked visit(Declared.SignalEntry signal) { return Checked.of(signal.signal()); }
      @Override public Checked visit(Declared.ZoneEntry zone) { return new Checked.Place(zone.index()); }

      @Override
      public Checked visit(Declared.ConstantEntry constant) {
        return context.definitions.constant(constant.declaration(), reference.position());
      }

      @Override
      public Checked visit(Declared.DefineEntry define) {
        if (!define.declaration().parameters().isEmpty()) {
          error(reference.position(), "`" + reference.name() + "` takes "
              + Definitions.count(define.declaration().parameters().size()), "write " + reference.name() + "(...)");
          return Checked.FAILED;
        }
        return context.definitions.definition(define.declaration(), reference.position(), tolerance);
      }

      @Override public Checked visit(Declared.TypeEntry type) { return noValue(); }
      @Override public Checked visit(Declared.GroupEntry group) { return noValue(); }
      @Override public Checked visit(Declared.MissingEntry missing) { return Checked.FAILED; }

      private Checked noValue() {
        error(reference.position(), "`" + reference.name() + "` is " + entry.kind() + ", not a value", "");
        return Checked.FAILED;
      }
    });
  }

  /** An expression that must be a condition. */
  Optional<Checked.Condition> condition(Expression expression) {
    Checked value = check(expression);
    return value.match(
        Optional::of,
        amount -> noCondition(expression, value, "compare it with a bound, such as > 1"
            + (TypeWords.unit(amount).isEmpty() ? "" : " " + TypeWords.unit(amount))),
        choice -> noCondition(expression, value, "compare it with one of its members, such as = "
            + choice.type().names().get(0)),
        place -> noCondition(expression, value,
            "say what about the zone: occupied(z), enters(z), leaves(z), backs_out(z) or miscounts(z)"),
        failed -> Optional.empty());
  }

  private Optional<Checked.Condition> noCondition(Expression expression, Checked value, String hint) {
    error(expression.position(), "a condition was expected, but this is " + TypeWords.of(value), hint);
    return Optional.empty();
  }

  /** An expression that must be a number which changes with events only. */
  Optional<Checked.Amount> steady(Expression expression) {
    Checked value = check(expression);
    if (value instanceof Checked.Amount amount) {
      return steady(amount, expression.position()) ? Optional.of(amount) : Optional.empty();
    }
    if (!value.isFailed()) {
      error(expression.position(), "a number was expected, but this is " + TypeWords.of(value), "");
    }
    return Optional.empty();
  }

  boolean steady(Checked.Amount amount, Position position) {
    if (amount.continuous()) {
      error(position,
          "`mean` and `time since` change all the time, so they may only stand alone on one side of a comparison",
          "compare it directly, such as time since e > 3 s");
    }
    return !amount.continuous();
  }

  /** An expression that must be a zone. */
  Optional<Integer> zone(Expression expression) {
    Checked value = expression instanceof Expression.Reference ? check(expression) : Checked.FAILED;
    if (value instanceof Checked.Place place) {
      return Optional.of(place.zone());
    }
    if (!(expression instanceof Expression.Reference) || !value.isFailed()) {
      error(expression.position(), "the name of a zone was expected", "");
    }
    return Optional.empty();
  }

  /** A positive fixed time in whole nanoseconds. */
  Optional<Long> duration(Expression expression) {
    return numbers.duration(expression);
  }

  /** A positive fixed length in metres. */
  Optional<Double> length(Expression expression) {
    Optional<Double> metres = numbers.fixed(expression, Dimension.LENGTH, "1.5 m").map(a -> a.constant().orElseThrow());
    if (metres.isPresent() && metres.get() <= 0) {
      error(expression.position(), "a length must be positive", "");
      return Optional.empty();
    }
    return metres;
  }

  NumberChecker numbers() {
    return numbers;
  }

  /** Checks an expression of which the type is known, so that a member of an enumeration may stand for itself. */
  Checked checkAs(Expression expression, ValueType type) {
    if (type instanceof ValueType.Enumeration enumeration && expression instanceof Expression.Reference reference
        && !locals.containsKey(reference.name()) && enumeration.names().contains(reference.name())) {
      return new Checked.Choice(new EnumExpr.Literal(enumeration.names().indexOf(reference.name())), enumeration,
          Extent.LEAF);
    }
    return check(expression);
  }

  /** Whether a name is declared nowhere, so that it can only be a member of an enumeration. */
  boolean isFree(Expression expression) {
    return expression instanceof Expression.Reference reference && !locals.containsKey(reference.name())
        && context.names.find(reference.name()).isEmpty();
  }
}
