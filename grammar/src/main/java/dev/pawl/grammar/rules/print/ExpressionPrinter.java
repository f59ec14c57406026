package dev.pawl.grammar.rules.print;

import dev.pawl.grammar.rules.tree.BinaryOperator;
import dev.pawl.grammar.rules.tree.Binding;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.tree.Name;
import java.util.ArrayDeque;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Expressions on one line, as the language writes them; a name may be printed as another one that it stands for. */
public final class ExpressionPrinter {

  private final Map<String, String> substitutes;

  /** A printer that keeps all names. */
  public ExpressionPrinter() {
    this(Map.of());
  }

  /** A printer that writes for each name its substitute, where it has one. */
  public ExpressionPrinter(Map<String, String> substitutes) {
    this.substitutes = Map.copyOf(substitutes);
  }

  /** On one line, or broken before each connective of the outermost chain where that is longer than {@code width}. */
  public List<String> lines(Expression expression, int width) {
    String line = print(expression);
    boolean chain = expression instanceof Expression.Binary binary
        && (binary.operator() == BinaryOperator.AND || binary.operator() == BinaryOperator.OR);
    return line.length() <= width || !chain ? List.of(line) : chain((Expression.Binary) expression);
  }

  private List<String> chain(Expression.Binary outermost) {
    BinaryOperator operator = outermost.operator();
    ArrayDeque<String> lines = new ArrayDeque<>();
    Expression rest = outermost;
    while (rest instanceof Expression.Binary binary && binary.operator() == operator) {
      lines.addFirst(operator.symbol() + " " + rightOperand(binary));
      rest = binary.left();
    }
    lines.addFirst(operand(rest, operator.binding()));
    return List.copyOf(lines);
  }

  public String print(Expression expression) {
    if (expression instanceof Expression.Number number) {
      return number.digits() + number.unit().map(unit -> " " + unit.text()).orElse("");
    }
    if (expression instanceof Expression.Truth truth) {
      return Boolean.toString(truth.value());
    }
    if (expression instanceof Expression.TraceEdge edge) {
      return edge.start() ? "start" : "end";
    }
    if (expression instanceof Expression.Reference reference) {
      return substitutes.getOrDefault(reference.name(), reference.name());
    }
    if (expression instanceof Expression.Negative negative) {
      String operand = operand(negative.operand(), Binding.NEGATIVE);
      return operand.startsWith("-") ? "- " + operand : "-" + operand;
    }
    if (expression instanceof Expression.Not not) {
      return "not " + operand(not.operand(), Binding.NEGATION);
    }
    if (expression instanceof Expression.Binary binary) {
      return binary(binary);
    }
    if (expression instanceof Expression.HeldFor held) {
      return operand(held.operand(), Binding.TEMPORAL) + " for " + quantity(held.duration());
    }
    if (expression instanceof Expression.InLast inLast) {
      return operand(inLast.operand(), Binding.TEMPORAL) + " in last " + quantity(inLast.duration());
    }
    return call(expression);
  }

  private String call(Expression expression) {
    if (expression instanceof Expression.Call call) {
      Name function = call.function();
      return function.text() + call.arguments().stream().map(this::print).collect(Collectors.joining(", ", "(", ")"));
    }
    if (expression instanceof Expression.CountInLast count) {
      return "count(" + print(count.event()) + ") in last " + quantity(count.duration());
    }
    if (expression instanceof Expression.CountSince count) {
      return "count(" + print(count.event()) + ") since " + operand(count.anchor(), Binding.PRIMARY);
    }
    if (expression instanceof Expression.Unread) {
      return "...";
    }
    if (expression instanceof Expression.TimeSince since) {
      return "time since " + operand(since.event(), Binding.PRIMARY);
    }
    Expression.Window window = (Expression.Window) expression;
    return window.kind().word() + "(" + print(window.operand()) + ") over " + quantity(window.duration());
  }

  /** A number or a name as it is, anything else in parentheses. */
  public String quantity(Expression expression) {
    boolean plain = expression instanceof Expression.Number || expression instanceof Expression.Reference;
    return plain ? print(expression) : "(" + print(expression) + ")";
  }

  private String binary(Expression.Binary binary) {
    BinaryOperator operator = binary.operator();
    Binding binding = operator.binding();
    boolean rightFirst = operator == BinaryOperator.IMPLIES;
    boolean chains = binding != Binding.COMPARISON;
    String left = rightFirst || !chains ? tighter(binary.left(), binding) : operand(binary.left(), binding);
    return left + " " + operator.symbol() + " " + rightOperand(binary);
  }

  /** Behind a connective, what lasts for a time is always put in parentheses: the language asks for them. */
  private String rightOperand(Expression.Binary binary) {
    Binding binding = binary.operator().binding();
    if (binding.compareTo(Binding.TEMPORAL) > 0 && binding(binary.right()) == Binding.TEMPORAL) {
      return "(" + print(binary.right()) + ")";
    }
    return binary.operator() == BinaryOperator.IMPLIES ? operand(binary.right(), binding) : tighter(binary.right(), binding);
  }

  private String operand(Expression expression, Binding loosest) {
    return binding(expression).compareTo(loosest) <= 0 ? print(expression) : "(" + print(expression) + ")";
  }

  private String tighter(Expression expression, Binding than) {
    return binding(expression).compareTo(than) < 0 ? print(expression) : "(" + print(expression) + ")";
  }

  private static Binding binding(Expression expression) {
    if (expression instanceof Expression.Binary binary) {
      return binary.operator().binding();
    }
    if (expression instanceof Expression.Not) {
      return Binding.NEGATION;
    }
    if (expression instanceof Expression.Negative) {
      return Binding.NEGATIVE;
    }
    boolean temporal = expression instanceof Expression.HeldFor || expression instanceof Expression.InLast;
    return temporal ? Binding.TEMPORAL : Binding.PRIMARY;
  }
}
