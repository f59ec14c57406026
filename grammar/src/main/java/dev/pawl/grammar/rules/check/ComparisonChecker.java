package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.tree.BinaryOperator;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.source.NearName;
import java.util.Optional;

/** Comparisons of two numbers of one dimension, two conditions, or two members of one enumeration. */
final class ComparisonChecker {

  private final ExpressionChecker expressions;
  private final Tolerance tolerance;

  ComparisonChecker(ExpressionChecker expressions, Tolerance tolerance) {
    this.expressions = expressions;
    this.tolerance = tolerance;
  }

  Checked check(Expression.Binary comparison) {
    boolean turned = expressions.isFree(comparison.left()) && !expressions.isFree(comparison.right());
    Expression known = turned ? comparison.right() : comparison.left();
    Expression other = turned ? comparison.left() : comparison.right();
    Checked first = expressions.check(known);
    Optional<Checked> second = first instanceof Checked.Choice choice ? member(choice, other)
        : Optional.of(expressions.check(other));
    if (first.isFailed() || second.isEmpty() || second.get().isFailed()) {
      return Checked.FAILED;
    }
    return turned ? compare(comparison, second.get(), first) : compare(comparison, first, second.get());
  }

  /** The other side of a comparison with an enumeration, where a free name can only be one of its members. */
  private Optional<Checked> member(Checked.Choice choice, Expression other) {
    Checked value = expressions.isFree(other) && !isMember(choice.type(), other) ? null
        : expressions.checkAs(other, choice.type());
    if (value == null) {
      String name = ((Expression.Reference) other).name();
      expressions.error(other.position(), "`" + name + "` is not " + TypeWords.of(choice.type()),
          NearName.hint(name, choice.type().names()).orElse(""));
    }
    return Optional.ofNullable(value);
  }

  private static boolean isMember(ValueType.Enumeration type, Expression expression) {
    return expression instanceof Expression.Reference reference && type.names().contains(reference.name());
  }

  private Checked compare(Expression.Binary comparison, Checked left, Checked right) {
    if (left instanceof Checked.Amount a && right instanceof Checked.Amount b) {
      return numbers(comparison, a, b);
    }
    if (left instanceof Checked.Condition a && right instanceof Checked.Condition b) {
      return equality(comparison, new BoolExpr.Same(a.expression(), b.expression()), left, right);
    }
    if (left instanceof Checked.Choice a && right instanceof Checked.Choice b && sameMembers(a, b)) {
      return equality(comparison, enumerations(a.expression(), b.expression()), left, right);
    }
    differ(comparison, left, right);
    return Checked.FAILED;
  }

  private static boolean sameMembers(Checked.Choice a, Checked.Choice b) {
    return a.type().names().equals(b.type().names());
  }

  private static BoolExpr enumerations(EnumExpr left, EnumExpr right) {
    return new BoolExpr.EnumEquals(left, right);
  }

  private Checked equality(Expression.Binary comparison, BoolExpr equal, Checked left, Checked right) {
    Extent extent = left.extent().with(right.extent());
    if (comparison.operator() == BinaryOperator.EQUAL) {
      return new Checked.Condition(equal, extent);
    }
    if (comparison.operator() == BinaryOperator.NOT_EQUAL) {
      return new Checked.Condition(new BoolExpr.Not(equal), extent.more());
    }
    expressions.error(comparison.position(), "`" + comparison.operator().symbol() + "` compares numbers, but this is "
        + TypeWords.of(left), "only = and != fit here");
    return Checked.FAILED;
  }

  private Checked numbers(Expression.Binary comparison, Checked.Amount left, Checked.Amount right) {
    if (!left.dimension().equals(right.dimension())) {
      differ(comparison, left, right);
      return Checked.FAILED;
    }
    boolean continuous = left.continuous() || right.continuous();
    if (left.continuous() && !expressions.steady(right, comparison.right().position())) {
      return Checked.FAILED;
    }
    Comparison operator = operator(comparison.operator());
    if (continuous && (operator == Comparison.EQUAL || operator == Comparison.NOT_EQUAL)) {
      expressions.error(comparison.position(), "`mean` and `time since` change all the time, so `" + operator.symbol()
          + "` says nothing about them", "use <, <=, > or >=");
      return Checked.FAILED;
    }
    double slack = tolerance.take(left.dimension());
    return new Checked.Condition(new BoolExpr.Compare(operator, left.expression(), right.expression(), slack,
        left.dimension()), left.extent().with(right.extent()));
  }

  private static Comparison operator(BinaryOperator operator) {
    return switch (operator) {
      case EQUAL -> Comparison.EQUAL;
      case NOT_EQUAL -> Comparison.NOT_EQUAL;
      case LESS -> Comparison.LESS;
      case AT_MOST -> Comparison.AT_MOST;
      case GREATER -> Comparison.GREATER;
      case AT_LEAST -> Comparison.AT_LEAST;
      case MULTIPLY, DIVIDE, ADD, SUBTRACT, SINCE, AND, OR, IMPLIES ->
          throw new IllegalArgumentException(operator.symbol());
    };
  }

  /**
   * Tells that two operands do not go together, at the one that is easier to change: the fixed one, else the right one.
   */
  void differ(Expression.Binary binary, Checked left, Checked right) {
    boolean pointLeft = isFixed(left) && !isFixed(right);
    Expression wrong = pointLeft ? binary.left() : binary.right();
    Expression other = pointLeft ? binary.right() : binary.left();
    Checked wrongValue = pointLeft ? left : right;
    Checked otherValue = pointLeft ? right : left;
    String subject = other instanceof Expression.Reference reference ? "`" + reference.name() + "`" : "the other side";
    expressions.error(wrong.position(), "this is " + TypeWords.of(wrongValue) + ", but " + subject + " is "
        + TypeWords.of(otherValue), hint(otherValue));
  }

  private static boolean isFixed(Checked value) {
    return value instanceof Checked.Amount amount && amount.constant().isPresent();
  }

  private static String hint(Checked other) {
    return other.match(condition -> "write a condition such as true",
        amount -> amount.dimension().equals(Dimension.NONE) ? "write a number without a unit, or with %"
            : "write it in " + TypeWords.unit(amount),
        choice -> "", place -> "", failed -> "");
  }
}
