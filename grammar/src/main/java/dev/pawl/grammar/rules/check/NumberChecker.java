package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.tree.BinaryOperator;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.WindowKind;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Position;
import java.util.Optional;

/** Numbers: literals with their units, arithmetic, windows and counts. Fixed parts are computed here already. */
final class NumberChecker {

  private final ExpressionChecker expressions;
  private final ComparisonChecker comparisons;

  NumberChecker(ExpressionChecker expressions, Tolerance tolerance) {
    this.expressions = expressions;
    this.comparisons = new ComparisonChecker(expressions, tolerance);
  }

  Checked compare(Expression.Binary comparison) {
    return comparisons.check(comparison);
  }

  Checked countSince(Expression.CountSince count) {
    Optional<Checked.Condition> event = expressions.condition(count.event());
    Optional<Checked.Condition> anchor = expressions.condition(count.anchor());
    return event.isEmpty() || anchor.isEmpty() ? Checked.FAILED
        : plain(new NumExpr.CountSince(event.get().expression(), anchor.get().expression()),
            event.get().extent().with(anchor.get().extent()));
  }

  Checked timeSince(Expression.TimeSince since) {
    return expressions.condition(since.event())
        .<Checked>map(event -> new Checked.Amount(new NumExpr.TimeSince(event.expression()), Dimension.TIME, "s", true,
            event.extent().more()))
        .orElse(Checked.FAILED);
  }

  /**
   * A literal; as a difference, a temperature counts from 0 K.
   *
   * @param negative whether a minus stands before it: -40 degC is a temperature, and not the opposite of one
   */
  Checked literal(Expression.Number number, boolean negative, boolean difference) {
    Optional<ValueType.Quantity> unit = number.unit().map(name -> UnitTable.find(name.text()))
        .orElse(Optional.of(ValueType.Quantity.PLAIN));
    if (unit.isEmpty()) {
      Name name = number.unit().get();
      expressions.error(name.position(), "`" + name.text() + "` is not a unit",
          UnitTable.hint(name.text()).orElse("units are written like m/s, km/h, mph, ft, psi, kW, A, rpm, deg, %"));
      return Checked.FAILED;
    }
    Scale scale = unit.get().scale();
    double si = (difference ? scale.ofDifferences() : scale).convert((negative ? "-" : "") + number.digits());
    if (Double.isInfinite(si)) {
      expressions.error(number.position(), "this number is too large", "");
      return Checked.FAILED;
    }
    return constant(si, unit.get().dimension(), unit.get().unit());
  }

  private static Checked.Amount constant(double value, Dimension dimension, String unit) {
    return new Checked.Amount(new NumExpr.Constant(value), dimension, unit, false, Extent.LEAF);
  }

  private static Checked.Amount plain(NumExpr expression, Extent extent) {
    return new Checked.Amount(expression, Dimension.NONE, "", false, extent);
  }

  Checked negative(Expression.Negative negative) {
    if (negative.operand() instanceof Expression.Number number) {
      return literal(number, true, false);
    }
    Optional<Checked.Amount> operand = expressions.steady(negative.operand());
    if (operand.isEmpty()) {
      return Checked.FAILED;
    }
    Checked.Amount amount = operand.get();
    return amount.constant().isPresent() ? constant(-amount.constant().getAsDouble(), amount.dimension(), amount.unit())
        : new Checked.Amount(new NumExpr.Negate(amount.expression()), amount.dimension(), amount.unit(), false,
        amount.extent().more());
  }

  Checked countInLast(Expression.CountInLast count) {
    Optional<Checked.Condition> event = expressions.condition(count.event());
    Optional<Long> duration = duration(count.duration());
    return event.isEmpty() || duration.isEmpty() ? Checked.FAILED
        : plain(new NumExpr.CountInLast(event.get().expression(), duration.get()), event.get().extent().more());
  }

  Checked window(Expression.Window window) {
    Optional<Checked.Amount> operand = expressions.steady(window.operand());
    Optional<Long> duration = duration(window.duration());
    if (operand.isEmpty() || duration.isEmpty()) {
      return Checked.FAILED;
    }
    NumExpr inner = operand.get().expression();
    NumExpr taken = switch (window.kind()) {
      case MIN -> new NumExpr.Extreme(false, inner, duration.get());
      case MAX -> new NumExpr.Extreme(true, inner, duration.get());
      case MEAN -> new NumExpr.Mean(inner, duration.get());
    };
    return new Checked.Amount(taken, operand.get().dimension(), operand.get().unit(), window.kind() == WindowKind.MEAN,
        operand.get().extent().more());
  }

  Checked arithmetic(Expression.Binary binary) {
    Optional<Checked.Amount> left = expressions.steady(binary.left());
    Optional<Checked.Amount> right = expressions.steady(binary.right());
    if (left.isEmpty() || right.isEmpty()) {
      return Checked.FAILED;
    }
    Checked.Amount a = left.get();
    Checked.Amount b = right.get();
    boolean sum = binary.operator() == BinaryOperator.ADD || binary.operator() == BinaryOperator.SUBTRACT;
    if (sum && !a.dimension().equals(b.dimension())) {
      comparisons.differ(binary, a, b);
      return Checked.FAILED;
    }
    Checked result = combine(binary, a, b);
    if (result instanceof Checked.Amount amount && amount.constant().isPresent()
        && !Double.isFinite(amount.constant().getAsDouble())) {
      expressions.error(binary.position(), "this number is too large", "");
      return Checked.FAILED;
    }
    return result;
  }

  private Checked combine(Expression.Binary binary, Checked.Amount a, Checked.Amount b) {
    return switch (binary.operator()) {
      case ADD -> combine(NumExpr.Operator.ADD, a, b, a.dimension(), a.unit());
      case SUBTRACT -> combine(NumExpr.Operator.SUBTRACT, a, b, a.dimension(), a.unit());
      case MULTIPLY -> combine(NumExpr.Operator.MULTIPLY, a, b, a.dimension().times(b.dimension()), scaled(a, b));
      case DIVIDE -> divide(binary, a, b);
      case EQUAL, NOT_EQUAL, LESS, AT_MOST, GREATER, AT_LEAST, SINCE, AND, OR, IMPLIES ->
          throw new IllegalArgumentException(binary.operator().symbol());
    };
  }

  /** The unit to speak of a product in: that of the one factor which has one. */
  private static String scaled(Checked.Amount a, Checked.Amount b) {
    return b.dimension().equals(Dimension.NONE) ? a.unit() : a.dimension().equals(Dimension.NONE) ? b.unit() : "";
  }

  private Checked divide(Expression.Binary binary, Checked.Amount a, Checked.Amount b) {
    if (b.constant().isPresent() && b.constant().getAsDouble() == 0) {
      expressions.error(binary.right().position(), "this divides by zero", "");
      return Checked.FAILED;
    }
    String unit = b.dimension().equals(Dimension.NONE) ? a.unit() : "";
    return combine(NumExpr.Operator.DIVIDE, a, b, a.dimension().per(b.dimension()), unit);
  }

  private static Checked combine(NumExpr.Operator operator, Checked.Amount a, Checked.Amount b, Dimension dimension,
      String unit) {
    if (a.constant().isPresent() && b.constant().isPresent()) {
      double x = a.constant().getAsDouble();
      double y = b.constant().getAsDouble();
      return constant(switch (operator) {
        case ADD -> x + y;
        case SUBTRACT -> x - y;
        case MULTIPLY -> x * y;
        case DIVIDE -> x / y;
      }, dimension, unit);
    }
    return new Checked.Amount(new NumExpr.Arithmetic(operator, a.expression(), b.expression()), dimension, unit, false,
        a.extent().with(b.extent()));
  }

  /** A positive fixed time in whole nanoseconds. */
  Optional<Long> duration(Expression expression) {
    Optional<Checked.Amount> amount = fixed(expression, Dimension.TIME, "20 s");
    return amount.flatMap(a -> nanoseconds(a.constant().orElseThrow(), expression.position(), false));
  }

  /** A fixed number of a dimension; {@code example} is what to write instead of something else. */
  Optional<Checked.Amount> fixed(Expression expression, Dimension dimension, String example) {
    Checked value = expressions.check(expression);
    if (value.isFailed()) {
      return Optional.empty();
    }
    if (!(value instanceof Checked.Amount amount) || !amount.dimension().equals(dimension)) {
      expressions.error(expression.position(), TypeWords.of(dimension) + " was expected, but this is "
          + TypeWords.of(value), "write one such as " + example);
      return Optional.empty();
    }
    if (amount.constant().isEmpty()) {
      expressions.error(expression.position(), "this must be fixed, but it depends on a signal", "write one such as "
          + example);
      return Optional.empty();
    }
    return Optional.of(amount);
  }

  /** A fixed difference of numbers, such as a tolerance. */
  Optional<Checked.Amount> difference(Expression expression) {
    if (expression instanceof Expression.Negative negative) {
      return difference(negative.operand()).map(a -> constant(-a.constant().orElseThrow(), a.dimension(), a.unit()));
    }
    Checked value = expression instanceof Expression.Number number ? literal(number, false, true)
        : expressions.check(expression);
    if (value instanceof Checked.Amount amount && amount.constant().isPresent()) {
      return Optional.of(amount);
    }
    if (!value.isFailed()) {
      expressions.error(expression.position(), "a fixed number with its unit was expected",
          "write one such as 0.1 m/s");
    }
    return Optional.empty();
  }

  /** Seconds as nanoseconds, which must be whole and, unless {@code orZero}, positive. */
  Optional<Long> nanoseconds(double seconds, Position position, boolean orZero) {
    double exact = seconds * 1e9;
    double whole = Math.rint(exact);
    if (exact < 0 || exact == 0 && !orZero) {
      expressions.error(position, "a duration must be positive", "");
    } else if (whole == 0 && exact > 0) {
      expressions.error(position, "a duration must be whole nanoseconds", "the least is 1 ns");
    } else if (Math.abs(exact - whole) > Math.max(1e-6, 4 * Math.ulp(exact))) {
      expressions.error(position, "a duration must be whole nanoseconds", "the nearest are " + (long) Math.floor(exact)
          + " ns and " + (long) Math.ceil(exact) + " ns");
    } else if (whole > 1e18) {
      expressions.error(position, "a duration may be 30 years at most", "");
    } else {
      return Optional.of((long) whole);
    }
    return Optional.empty();
  }
}
