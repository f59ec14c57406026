package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.source.NearName;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.IntFunction;

/** The forms that are written like calls, and definitions with parameters. */
final class CallChecker {

  private final ExpressionChecker expressions;
  private final Context context;
  private final Tolerance tolerance;

  CallChecker(ExpressionChecker expressions, Context context, Tolerance tolerance) {
    this.expressions = expressions;
    this.context = context;
    this.tolerance = tolerance;
  }

  Checked check(Expression.Call call) {
    String name = call.function().text();
    Optional<Declared> entry = context.names.find(name);
    if (entry.isPresent() && entry.get() instanceof Declared.DefineEntry define && !define.declaration().parameters()
        .isEmpty()) {
      return definition(define.declaration(), call);
    }
    String form = Builtins.FORMS.get(name);
    if (form == null) {
      unknown(call, entry.isPresent());
      return Checked.FAILED;
    }
    int wanted = Builtins.arguments(name);
    if (call.arguments().size() != wanted) {
      expressions.error(call.position(), "`" + name + "` takes " + Definitions.count(wanted) + ", but "
          + call.arguments().size() + (call.arguments().size() == 1 ? " is" : " are") + " given", "write " + form);
      return Checked.FAILED;
    }
    return builtin(name, call);
  }

  private void unknown(Expression.Call call, boolean declared) {
    String name = call.function().text();
    if (declared) {
      expressions.error(call.function().position(), "`" + name + "` takes no operand in parentheses", "write " + name
          + " alone");
      return;
    }
    TreeSet<String> known = new TreeSet<>(Builtins.NAMES);
    context.names.all().forEach(entry -> {
      if (entry instanceof Declared.DefineEntry define && !define.declaration().parameters().isEmpty()) {
        known.add(define.declaration().name().text());
      }
    });
    expressions.error(call.function().position(), "`" + name + "` is neither a form of the language nor a definition",
        NearName.hint(name, known).orElse(""));
  }

  private Checked definition(Declaration.Define define, Expression.Call call) {
    Optional<Map<String, Checked>> arguments = context.definitions.arguments(define, call, expressions);
    return arguments.isEmpty() ? Checked.FAILED
        : context.definitions.call(define, arguments.get(), expressions.place(call.position()), tolerance);
  }

  private Checked builtin(String name, Expression.Call call) {
    Expression first = call.arguments().get(0);
    return switch (name) {
      case "rises" -> expressions.map(expressions.condition(first), BoolExpr.Rises::new);
      case "falls" -> expressions.map(expressions.condition(first), BoolExpr.Falls::new);
      case "changes" -> changes(first);
      case "previous" -> previous(first);
      case "rate" -> rate(first);
      case "speed" -> speed(call);
      case "occupied" -> zone(first, BoolExpr.Occupied::new);
      case "enters" -> zone(first, BoolExpr.Enters::new);
      case "leaves" -> zone(first, BoolExpr.Leaves::new);
      case "backs_out" -> zone(first, BoolExpr.BacksOut::new);
      case "miscounts" -> zone(first, BoolExpr.Miscounts::new);
      case "trains" -> expressions.zone(first)
          .<Checked>map(zone -> new Checked.Amount(new NumExpr.Trains(zone), Dimension.NONE, "", false, Extent.LEAF))
          .orElse(Checked.FAILED);
      default -> throw new IllegalArgumentException(name);
    };
  }

  private Checked zone(Expression expression, IntFunction<BoolExpr> form) {
    return expressions.zone(expression).<Checked>map(zone -> new Checked.Condition(form.apply(zone), Extent.LEAF))
        .orElse(Checked.FAILED);
  }

  private Checked changes(Expression operand) {
    Checked value = expressions.check(operand);
    Extent extent = value.extent().more();
    return value.match(
        condition -> new Checked.Condition(new BoolExpr.BoolChanges(condition.expression()), extent),
        amount -> expressions.steady(amount, operand.position())
            ? new Checked.Condition(new BoolExpr.NumChanges(amount.expression()), extent) : Checked.FAILED,
        choice -> new Checked.Condition(new BoolExpr.EnumChanges(choice.expression()), extent),
        place -> noValue(operand),
        failed -> failed);
  }

  private Checked previous(Expression operand) {
    Checked value = expressions.check(operand);
    Extent extent = value.extent().more();
    return value.match(
        condition -> new Checked.Condition(new BoolExpr.Previous(condition.expression()), extent),
        amount -> expressions.steady(amount, operand.position()) ? new Checked.Amount(
            new NumExpr.Previous(amount.expression()), amount.dimension(), amount.unit(), false, extent)
            : Checked.FAILED,
        choice -> new Checked.Choice(new EnumExpr.Previous(choice.expression()), choice.type(), extent),
        place -> noValue(operand),
        failed -> failed);
  }

  private Checked noValue(Expression operand) {
    expressions.error(operand.position(), "a zone has no value of its own", "write occupied(z) or trains(z)");
    return Checked.FAILED;
  }

  private Checked rate(Expression operand) {
    Optional<Checked.Amount> amount = expressions.steady(operand);
    return amount.<Checked>map(a -> new Checked.Amount(new NumExpr.Rate(a.expression()), a.dimension()
        .per(Dimension.TIME), "", false, a.extent().more())).orElse(Checked.FAILED);
  }

  private Checked speed(Expression.Call call) {
    Optional<Checked.Condition> from = expressions.condition(call.arguments().get(0));
    Optional<Checked.Condition> to = expressions.condition(call.arguments().get(1));
    Expression distance = call.arguments().get(2);
    Optional<Double> metres = expressions.length(distance);
    if (from.isEmpty() || to.isEmpty() || metres.isEmpty()) {
      return Checked.FAILED;
    }
    return new Checked.Amount(new NumExpr.PassingSpeed(from.get().expression(), to.get().expression(), metres.get()),
        Dimension.SPEED, "m/s", false, from.get().extent().with(to.get().extent()));
  }
}
