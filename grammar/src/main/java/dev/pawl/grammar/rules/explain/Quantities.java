package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.Expressions;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.ValueType;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Optional;

/** Fixed numbers and durations as text, in the unit of the signal they stand beside. */
final class Quantities {

  private static final long[] STEPS = {3_600_000_000_000L, 60_000_000_000L, 1_000_000_000L, 1_000_000L, 1_000L, 1L};
  private static final String[] UNITS = {"h", "min", "s", "ms", "us", "ns"};

  private Quantities() {}

  /** A duration in the largest unit that leaves a short number: {@code 20 s}, {@code 1.5 s}, {@code 250 ms}. */
  static String duration(long nanoseconds) {
    if (nanoseconds == 0) {
      return "0 s";
    }
    for (int i = 0; i < STEPS.length; i++) {
      boolean whole = nanoseconds % STEPS[i] == 0;
      boolean shortFraction = i >= 2 && nanoseconds >= STEPS[i] && nanoseconds % STEPS[i] % Math.max(1, STEPS[i] / 1000) == 0;
      if (whole || shortFraction) {
        BigDecimal exact = BigDecimal.valueOf(nanoseconds).divide(BigDecimal.valueOf(STEPS[i]));
        return exact.stripTrailingZeros().toPlainString() + " " + UNITS[i];
      }
    }
    throw new IllegalStateException();
  }

  static String number(double value) {
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(6)).stripTrailingZeros();
    return rounded.signum() == 0 ? "0" : rounded.scale() < -9 || rounded.scale() > 12 ? rounded.toString() : rounded.toPlainString();
  }

  /** A fixed number beside another one, in the unit of the first signal in that. */
  static String beside(double value, NumExpr other, RuleBook book) {
    if (other instanceof NumExpr.TimeSince) {
      return duration(Math.round(value * 1e9));
    }
    if (isCount(other)) {
      return number(value);
    }
    Optional<ValueType.Quantity> type = quantity(other, book);
    if (other instanceof NumExpr.PassingSpeed) {
      return number(value) + " m/s";
    }
    if (type.isEmpty() || !keepsUnit(other)) {
      return number(value) + dimension(other, book).map(d -> d.siUnit().isEmpty() ? "" : " " + d.siUnit()).orElse(" (in SI units)");
    }
    ValueType.Quantity unit = type.get();
    return number((value - unit.offset()) / unit.factor()) + (unit.unit().isEmpty() ? "" : " " + unit.unit());
  }

  private static boolean isCount(NumExpr number) {
    return number instanceof NumExpr.CountInLast || number instanceof NumExpr.CountSince || number instanceof NumExpr.Trains;
  }

  /** Whether a number has the unit of the signals in it: no rate, no product. */
  private static boolean keepsUnit(NumExpr number) {
    if (number instanceof NumExpr.Rate) {
      return false;
    }
    if (number instanceof NumExpr.Arithmetic arithmetic) {
      return isSum(arithmetic) && keepsUnit(arithmetic.left()) && keepsUnit(arithmetic.right());
    }
    return Expressions.parts(number).stream().allMatch(part -> !(part instanceof NumExpr inner) || keepsUnit(inner));
  }

  static boolean isSum(NumExpr.Arithmetic arithmetic) {
    return arithmetic.operator() == NumExpr.Operator.ADD || arithmetic.operator() == NumExpr.Operator.SUBTRACT;
  }

  /** The dimension of a number, as far as no fixed factor hides it. */
  private static Optional<Dimension> dimension(NumExpr number, RuleBook book) {
    if (number instanceof NumExpr.Rate rate) {
      return dimension(rate.operand(), book).map(d -> d.per(Dimension.TIME));
    }
    if (number instanceof NumExpr.Arithmetic arithmetic) {
      Optional<Dimension> left = dimension(arithmetic.left(), book);
      Optional<Dimension> right = dimension(arithmetic.right(), book);
      if (isSum(arithmetic)) {
        return left.or(() -> right);
      }
      boolean times = arithmetic.operator() == NumExpr.Operator.MULTIPLY;
      return left.flatMap(a -> right.map(b -> times ? a.times(b) : a.per(b)));
    }
    if (number instanceof NumExpr.TimeSince) {
      return Optional.of(Dimension.TIME);
    }
    if (number instanceof NumExpr.PassingSpeed) {
      return Optional.of(Dimension.SPEED);
    }
    return isCount(number) ? Optional.of(Dimension.NONE)
        : number instanceof NumExpr.Constant ? Optional.empty() : quantity(number, book).map(ValueType.Quantity::dimension);
  }

  private static Optional<ValueType.Quantity> quantity(NumExpr number, RuleBook book) {
    if (number instanceof NumExpr.Signal signal && book.signals().get(signal.signal()).type() instanceof ValueType.Quantity type) {
      return Optional.of(type);
    }
    for (Object part : Expressions.parts(number)) {
      Optional<ValueType.Quantity> inner = part instanceof NumExpr operand ? quantity(operand, book) : Optional.empty();
      if (inner.isPresent()) {
        return inner;
      }
    }
    return Optional.empty();
  }
}
