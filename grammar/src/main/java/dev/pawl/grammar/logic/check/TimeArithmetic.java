package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Elementary.Kind;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;

/** Sums, differences, multiples and fractions of durations, dates and times of day: the standard's table 35. */
final class TimeArithmetic {

  private final Checking checking;

  TimeArithmetic(Checking checking) {
    this.checking = checking;
  }

  /** The result, or nothing where the operands are no times or do not go together. */
  Optional<Operand> arithmetic(Value.Operator operator, Operand left, Operand right, Position position) {
    Optional<Elementary> first = OperatorChecker.elementary(left);
    Optional<Elementary> second = OperatorChecker.elementary(right);
    if (first.isEmpty() || !(first.get().isDate() || first.get().kind() == Kind.DURATION)) {
      return Optional.empty();
    }
    boolean sum = operator == Value.Operator.ADD || operator == Value.Operator.SUBTRACT;
    if (sum) {
      return second.flatMap(other -> sum(operator, left, first.get(), right, other, position));
    }
    boolean scale = first.get().kind() == Kind.DURATION && operator != Value.Operator.MODULO;
    return scale ? scaled(operator == Value.Operator.MULTIPLY, left, first.get(), right, position) : Optional.empty();
  }

  private Optional<Operand> sum(Value.Operator operator, Operand left, Elementary first, Operand right,
      Elementary second, Position position) {
    boolean duration = second.kind() == Kind.DURATION;
    boolean longer = first.name().startsWith("L") || second.name().startsWith("L");
    if (first.kind() == Kind.DURATION && duration) {
      return Optional.of(whole(operator, left, right, longer ? Elementary.LTIME : Elementary.TIME, position));
    }
    if (duration && first.kind() == Kind.CLOCK) {
      Value step = operator == Value.Operator.ADD ? value(right) : new Value.Negate(value(right), second, position);
      return Optional.of(typed(new Value.Standard(Operation.ADD_CLOCK, List.of(value(left), step), first, position),
          position));
    }
    if (duration && first.kind() == Kind.DATE_TIME) {
      return Optional.of(whole(operator, left, right, first, position));
    }
    boolean difference = operator == Value.Operator.SUBTRACT && first.kind() == second.kind();
    return difference ? Optional.of(whole(operator, left, right, longer ? Elementary.LTIME : Elementary.TIME, position))
        : Optional.empty();
  }

  private Operand whole(Value.Operator operator, Operand left, Operand right, Elementary type, Position position) {
    return typed(new Value.Arithmetic(operator, value(left), value(right), type, position), position);
  }

  private Optional<Operand> scaled(boolean multiply, Operand left, Elementary type, Operand right, Position position) {
    Optional<Elementary> factor = OperatorChecker.elementary(right);
    boolean whole = right instanceof Operand.Number number ? number.whole() : factor.filter(Elementary::isInteger)
        .isPresent();
    if (!(right instanceof Operand.Number) && factor.filter(Elementary::isNumber).isEmpty()) {
      return Optional.empty();
    }
    Value.Operator operator = multiply ? Value.Operator.MULTIPLY : Value.Operator.DIVIDE;
    Value scale = factor.map(from -> from.isInteger() ? value(right)
        : checking.adaptation().convert(value(right), from, Elementary.LREAL, position))
        .orElseGet(() -> checking.adaptation().to(whole ? Elementary.LINT : Elementary.LREAL, right, "the factor"));
    if (whole) {
      return Optional.of(typed(new Value.Arithmetic(operator, value(left), scale, type, position), position));
    }
    Value real = new Value.Convert(value(left), Elementary.LINT, Elementary.LREAL, false, position);
    Value result = new Value.Arithmetic(operator, real, scale, Elementary.LREAL, position);
    return Optional.of(typed(new Value.Convert(result, Elementary.LREAL, type, false, position), position));
  }

  private static Value value(Operand operand) {
    return ((Operand.Typed) operand).value();
  }

  private Operand typed(Value value, Position position) {
    return new Operand.Typed(checking.folder().fold(value), position);
  }
}
