package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.Expr;
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
      boolean shortFraction = i >= 2 && nanoseconds >= STEPS[i]
          && nanoseconds % STEPS[i] % Math.max(1, STEPS[i] / 1000) == 0;
      if (whole || shortFraction) {
        BigDecimal exact = BigDecimal.valueOf(nanoseconds).divide(BigDecimal.valueOf(STEPS[i]));
        return exact.stripTrailingZeros().toPlainString() + " " + UNITS[i];
      }
    }
    throw new IllegalStateException();
  }

  static String number(double value) {
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(6)).stripTrailingZeros();
    if (rounded.signum() == 0) {
      return "0";
    }
    return rounded.scale() < -9 || rounded.scale() > 12 ? rounded.toString() : rounded.toPlainString();
  }

  /**
   * A fixed number beside another one, in the unit of the first signal in that.
   *
   * @param dimension of both
   */
  static String beside(double value, NumExpr other, Dimension dimension, RuleBook book) {
    if (other instanceof NumExpr.TimeSince) {
      return duration(Math.round(value * 1e9));
    }
    Optional<ValueType.Quantity> type = keepsUnit(other) ? quantity(other, book) : Optional.empty();
    if (type.isEmpty() || isCount(other) || !type.get().dimension().equals(dimension)) {
      return number(value) + (dimension.siUnit().isEmpty() ? "" : " " + dimension.siUnit());
    }
    ValueType.Quantity unit = type.get();
    return number(unit.toWritten(value)) + (unit.unit().isEmpty() ? "" : " " + unit.unit());
  }

  /** The name of a fixed member beside another one, where that tells the enumeration. */
  static Optional<String> member(EnumExpr.Literal member, EnumExpr other, RuleBook book) {
    return other.signals().stream().map(signal -> book.signals().get(signal).type())
        .filter(ValueType.Enumeration.class::isInstance).map(type -> ((ValueType.Enumeration) type).names()
            .get(member.index()))
        .findFirst();
  }

  private static boolean isCount(NumExpr number) {
    return number instanceof NumExpr.CountInLast || number instanceof NumExpr.CountSince
        || number instanceof NumExpr.Trains;
  }

  /** Whether a number has the unit of the signals in it: no rate, no product. */
  private static boolean keepsUnit(NumExpr number) {
    if (number instanceof NumExpr.Rate) {
      return false;
    }
    if (number instanceof NumExpr.Arithmetic arithmetic) {
      boolean sum = arithmetic.operator() == NumExpr.Operator.ADD || arithmetic.operator() == NumExpr.Operator.SUBTRACT;
      return sum && keepsUnit(arithmetic.left()) && keepsUnit(arithmetic.right());
    }
    return number.parts().expressions().stream().allMatch(part -> !(part instanceof NumExpr inner) || keepsUnit(inner));
  }

  private static Optional<ValueType.Quantity> quantity(NumExpr number, RuleBook book) {
    if (number instanceof NumExpr.Signal signal
        && book.signals().get(signal.signal()).type() instanceof ValueType.Quantity type) {
      return Optional.of(type);
    }
    for (Expr part : number.parts().expressions()) {
      Optional<ValueType.Quantity> inner = part instanceof NumExpr operand ? quantity(operand, book) : Optional.empty();
      if (inner.isPresent()) {
        return inner;
      }
    }
    return Optional.empty();
  }
}
