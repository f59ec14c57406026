package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/** Constants and definitions: each is checked once where it stands, and then put in place of its name. */
final class Definitions {

  private static final int DEEPEST = 100;

  private final Context context;
  private final Map<String, Checked> values = new HashMap<>();
  private final List<String> active = new ArrayList<>();

  Definitions(Context context) {
    this.context = context;
  }

  /** The value of a constant. */
  Checked constant(Declaration.Constant constant, Position use) {
    return guarded(constant.name().text(), use, Tolerance.NONE, () -> {
      Checked value = new ExpressionChecker(context).check(constant.value());
      if (value instanceof Checked.Amount amount && amount.constant().isPresent()) {
        return value;
      }
      if (!value.isFailed()) {
        context.problems.error(constant.value().position(), "a constant is a fixed number with its unit",
            "give a name to anything else with define");
      }
      return Checked.FAILED;
    });
  }

  /** The value of a definition without parameters; one with parameters is only checked. */
  Checked definition(Declaration.Define define, Position use, Tolerance tolerance) {
    return guarded(define.name().text(), use, tolerance,
        () -> new ExpressionChecker(context, placeholders(define), tolerance).check(define.body()));
  }

  /** The value of a definition with parameters, with arguments in their place. */
  Checked call(Declaration.Define define, Map<String, Checked> arguments, Position use, Tolerance tolerance) {
    if (definition(define, use, Tolerance.NONE).isFailed()) {
      return Checked.FAILED;
    }
    active.add(define.name().text());
    try {
      return new ExpressionChecker(context, arguments, tolerance).at(use).check(define.body());
    } finally {
      active.remove(active.size() - 1);
    }
  }

  private Checked guarded(String name, Position use, Tolerance tolerance, Supplier<Checked> check) {
    Checked known = values.get(name);
    if (known != null && (known.isFailed() || tolerance == Tolerance.NONE)) {
      return known;
    }
    int earlier = active.indexOf(name);
    if (earlier >= 0) {
      List<String> circle = new ArrayList<>(active.subList(earlier, active.size()));
      circle.add(name);
      context.problems.error(use, "`" + name + "` is defined by itself: " + String.join(" -> ", circle));
      return Checked.FAILED;
    }
    if (active.size() >= DEEPEST) {
      context.problems.error(use, "definitions are nested more than " + DEEPEST + " deep here",
          "split what stands here into simpler rules");
      return Checked.FAILED;
    }
    active.add(name);
    try {
      Checked value = check.get();
      values.putIfAbsent(name, value);
      return value;
    } finally {
      active.remove(active.size() - 1);
    }
  }

  /** Arguments of the right types for checking a definition where it stands. */
  private Map<String, Checked> placeholders(Declaration.Define define) {
    Map<String, Checked> arguments = new HashMap<>();
    for (Declaration.Parameter parameter : define.parameters()) {
      Checked placeholder = parameter.type().isEmpty() ? new Checked.Place(0)
          : context.types.resolve(parameter.type().get()).map(Checked::placeholder).orElse(Checked.FAILED);
      context.names.shadows(parameter.name());
      if (arguments.put(parameter.name().text(), placeholder) != null) {
        context.problems.error(parameter.name().position(), "`" + parameter.name().text() + "` is a parameter twice");
      }
    }
    return arguments;
  }

  /** Checks the arguments of a call against the parameters; nothing where one is wrong. */
  Optional<Map<String, Checked>> arguments(Declaration.Define define, Expression.Call call, ExpressionChecker caller) {
    List<Declaration.Parameter> parameters = define.parameters();
    if (call.arguments().size() != parameters.size()) {
      context.problems.error(call.position(), "`" + define.name().text() + "` takes " + count(parameters.size())
          + ", but " + call.arguments().size() + (call.arguments().size() == 1 ? " is" : " are") + " given",
          "it is declared at " + define.name().position());
      return Optional.empty();
    }
    Map<String, Checked> arguments = new HashMap<>();
    for (int i = 0; i < parameters.size(); i++) {
      arguments.put(parameters.get(i).name().text(), argument(parameters.get(i), call.arguments().get(i), caller));
    }
    return arguments.containsValue(Checked.FAILED) ? Optional.empty() : Optional.of(arguments);
  }

  private Checked argument(Declaration.Parameter parameter, Expression written, ExpressionChecker caller) {
    if (parameter.type().isEmpty()) {
      return caller.zone(written).<Checked>map(Checked.Place::new).orElse(Checked.FAILED);
    }
    Optional<ValueType> type = context.types.resolve(parameter.type().get());
    if (type.isEmpty()) {
      return Checked.FAILED;
    }
    Checked value = caller.checkAs(written, type.get());
    if (value.isFailed() || Definitions.matches(value, type.get())) {
      return value;
    }
    context.problems.error(written.position(), "`" + parameter.name().text() + "` must be " + TypeWords.of(type.get())
        + ", but this is " + TypeWords.of(value));
    return Checked.FAILED;
  }

  static boolean matches(Checked value, ValueType type) {
    return type.match(
        bool -> value instanceof Checked.Condition,
        enumeration -> value instanceof Checked.Choice choice && choice.type().names().containsAll(enumeration.names()),
        quantity -> value instanceof Checked.Amount amount && amount.dimension().equals(quantity.dimension()));
  }

  static String count(int arguments) {
    return arguments == 1 ? "1 argument" : arguments + " arguments";
  }
}
