package dev.pawl.grammar.rules.print;

import dev.pawl.grammar.rules.tree.BinaryOperator;
import dev.pawl.grammar.rules.tree.Binding;
import dev.pawl.grammar.rules.tree.Expression;
import java.util.ArrayDeque;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Expressions on one line, as the language writes them; a name may be printed as another one that it stands for. */
public final class ExpressionPrinter implements Expression.Visitor<String> {

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
    return expression.accept(this);
  }

  @Override public String visit(Expression.Number e) {
    return e.digits() + e.unit().map(unit -> " " + unit.text()).orElse("");
  }
  @Override public String visit(Expression.Truth e) { return Boolean.toString(e.value()); }
  @Override public String visit(Expression.Unread e) { return "..."; }
  @Override public String visit(Expression.TraceEdge e) { return e.start() ? "start" : "end"; }
  @Override public String visit(Expression.Reference e) { return substitutes.getOrDefault(e.name(), e.name()); }
  @Override public String visit(Expression.Not e) { return "not " + operand(e.operand(), Binding.NEGATION); }
  @Override public String visit(Expression.TimeSince e) { return "time since " + operand(e.event(), Binding.PRIMARY); }

  @Override
  public String visit(Expression.Call e) {
    return e.function().text() + e.arguments().stream().map(this::print).collect(Collectors.joining(", ", "(", ")"));
  }

  @Override
  public String visit(Expression.Negative e) {
    String operand = operand(e.operand(), Binding.NEGATIVE);
    return operand.startsWith("-") ? "- " + operand : "-" + operand;
  }

  @Override
  public String visit(Expression.HeldFor e) {
    return operand(e.operand(), Binding.TEMPORAL) + " for " + quantity(e.duration());
  }

  @Override
  public String visit(Expression.InLast e) {
    return operand(e.operand(), Binding.TEMPORAL) + " in last " + quantity(e.duration());
  }

  @Override
  public String visit(Expression.CountInLast e) {
    return "count(" + print(e.event()) + ") in last " + quantity(e.duration());
  }

  @Override
  public String visit(Expression.CountSince e) {
    return "count(" + print(e.event()) + ") since " + operand(e.anchor(), Binding.PRIMARY);
  }

  @Override
  public String visit(Expression.Window e) {
    return e.kind().word() + "(" + print(e.operand()) + ") over " + quantity(e.duration());
  }

  /** A number or a name as it is, anything else in parentheses. */
  public String quantity(Expression expression) {
    boolean plain = expression instanceof Expression.Number || expression instanceof Expression.Reference;
    return plain ? print(expression) : "(" + print(expression) + ")";
  }

  @Override
  public String visit(Expression.Binary binary) {
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
    return binary.operator() == BinaryOperator.IMPLIES ? operand(binary.right(), binding)
        : tighter(binary.right(), binding);
  }

  private String operand(Expression expression, Binding loosest) {
    return binding(expression).compareTo(loosest) <= 0 ? print(expression) : "(" + print(expression) + ")";
  }

  private String tighter(Expression expression, Binding than) {
    return binding(expression).compareTo(than) < 0 ? print(expression) : "(" + print(expression) + ")";
  }

  private static Binding binding(Expression expression) {
    return expression.accept(BINDING);
  }

  private static final Expression.Question<Binding> BINDING = new Expression.Question<>() {
    @Override public Binding otherwise(Expression e) { return Binding.PRIMARY; }
    @Override public Binding visit(Expression.Binary e) { return e.operator().binding(); }
    @Override public Binding visit(Expression.Not e) { return Binding.NEGATION; }
    @Override public Binding visit(Expression.Negative e) { return Binding.NEGATIVE; }
    @Override public Binding visit(Expression.HeldFor e) { return Binding.TEMPORAL; }
    @Override public Binding visit(Expression.InLast e) { return Binding.TEMPORAL; }
  };
}
