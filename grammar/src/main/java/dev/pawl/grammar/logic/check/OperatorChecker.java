package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Expression.BinaryOperator;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.util.List;
import java.util.Optional;

/** The checker of operators; the standard functions that do the same (ADD, GT, AND and so on) come here too. */
final class OperatorChecker {

  /** Digits to which numbers without a type are divided; more than LREAL can hold. */
  private static final MathContext PRECISION = MathContext.DECIMAL128;

  private final Diagnostics diagnostics;
  private final Checking checking;
  private final TimeArithmetic times;

  OperatorChecker(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
    this.times = new TimeArithmetic(checking);
  }

  Operand unary(Expression.Unary unary, Operand operand) {
    if (operand.isWrong()) {
      return operand;
    }
    if (operand instanceof Operand.Number number && unary.operator() != Expression.UnaryOperator.NOT) {
      boolean minus = unary.operator() == Expression.UnaryOperator.MINUS;
      return new Operand.Number(minus ? number.value().negate() : number.value(), number.whole(), number.position());
    }
    Optional<Elementary> type = elementary(operand);
    return switch (unary.operator()) {
      case NOT -> type.filter(Elementary::isBits).map(bits ->
          fold(new Value.Complement(value(operand), bits), unary.position()))
          .orElseGet(() -> refuse(unary.position(), "NOT needs BOOL or a bit string", operand));
      case PLUS -> type.filter(found -> found.isNumber() || found.kind() == Elementary.Kind.DURATION)
          .map(found -> operand)
          .orElseGet(() -> refuse(unary.position(), "a sign needs a number", operand));
      case MINUS -> type.filter(OperatorChecker::negatable)
          .map(found -> fold(new Value.Negate(value(operand), found, unary.position()), unary.position()))
          .orElseGet(() -> refuse(unary.position(), "a minus sign needs a signed number or a duration", operand));
    };
  }

  /** The real type of numbers without one. */
  static Elementary real(Optional<LogicType> wanted) {
    return wanted.flatMap(Conversions::operand).filter(Elementary::isReal).orElse(Elementary.LREAL);
  }

  private static boolean negatable(Elementary type) {
    return type.kind() == Elementary.Kind.SIGNED || type.isReal() || type.kind() == Elementary.Kind.DURATION;
  }

  private Operand refuse(Position position, String message, Operand operand) {
    diagnostics.error(position, message + ", but the operand is " + operand.typeName());
    return new Operand.Wrong(position);
  }

  Operand binary(Expression.Binary binary, Operand left, Operand right, Optional<LogicType> wanted) {
    Position position = binary.position();
    return switch (binary.operator()) {
      case POWER -> power(left, right, position, wanted);
      case MULTIPLY -> arithmetic(Value.Operator.MULTIPLY, "*", left, right, position);
      case DIVIDE -> arithmetic(Value.Operator.DIVIDE, "/", left, right, position);
      case MODULO -> arithmetic(Value.Operator.MODULO, "MOD", left, right, position);
      case ADD -> arithmetic(Value.Operator.ADD, "+", left, right, position);
      case SUBTRACT -> arithmetic(Value.Operator.SUBTRACT, "-", left, right, position);
      case LESS -> compare(Value.Relation.LESS, "<", left, right, position);
      case GREATER -> compare(Value.Relation.GREATER, ">", left, right, position);
      case AT_MOST -> compare(Value.Relation.AT_MOST, "<=", left, right, position);
      case AT_LEAST -> compare(Value.Relation.AT_LEAST, ">=", left, right, position);
      case EQUAL -> compare(Value.Relation.EQUAL, "=", left, right, position);
      case NOT_EQUAL -> compare(Value.Relation.NOT_EQUAL, "<>", left, right, position);
      case AND -> logic(Value.Connective.AND, BinaryOperator.AND.symbol(), left, right, position);
      case OR -> logic(Value.Connective.OR, BinaryOperator.OR.symbol(), left, right, position);
      case XOR -> logic(Value.Connective.XOR, BinaryOperator.XOR.symbol(), left, right, position);
      case AND_THEN -> truth(Value.Connective.AND_THEN, binary.operator().symbol(), left, right, position);
      case OR_ELSE -> truth(Value.Connective.OR_ELSE, binary.operator().symbol(), left, right, position);
    };
  }

  Operand arithmetic(Value.Operator operator, String symbol, Operand left, Operand right, Position position) {
    if (left.isWrong() || right.isWrong()) {
      return new Operand.Wrong(position);
    }
    if (left instanceof Operand.Number first && right instanceof Operand.Number second) {
      return numbers(operator, first, second, position);
    }
    Optional<Operand> time = times.arithmetic(operator, left, right, position);
    if (time.isPresent()) {
      return time.get();
    }
    Optional<Elementary> common = common(left, right)
        .filter(type -> operator == Value.Operator.MODULO ? type.isInteger() : type.isNumber());
    if (common.isEmpty()) {
      return mismatch(symbol, operator == Value.Operator.MODULO ? "two integers" : "two numbers", left, right,
          position);
    }
    Value first = checking.adaptation().to(common.get(), left, "the left operand");
    Value second = checking.adaptation().to(common.get(), right, "the right operand");
    return fold(new Value.Arithmetic(operator, first, second, common.get(), position), position);
  }

  private Operand numbers(Value.Operator operator, Operand.Number left, Operand.Number right, Position position) {
    boolean whole = left.whole() && right.whole();
    boolean divides = operator == Value.Operator.DIVIDE || operator == Value.Operator.MODULO;
    if (divides && right.value().signum() == 0) {
      diagnostics.error(position, "division by zero");
      return new Operand.Wrong(position);
    }
    BigDecimal result = switch (operator) {
      case ADD -> left.value().add(right.value());
      case SUBTRACT -> left.value().subtract(right.value());
      case MULTIPLY -> left.value().multiply(right.value());
      case DIVIDE -> whole ? new BigDecimal(left.value().toBigInteger().divide(right.value().toBigInteger()))
          : left.value().divide(right.value(), PRECISION);
      case MODULO -> left.value().remainder(right.value());
    };
    return magnitude(new Operand.Number(result, whole, position));
  }

  /** Keeps exact numbers from growing without end. */
  private Operand magnitude(Operand.Number number) {
    if (number.value().precision() - number.value().scale() > 400) {
      diagnostics.error(number.position(), "the result is too large for every type");
      return new Operand.Wrong(number.position());
    }
    return number.whole() ? number : new Operand.Number(number.value().round(PRECISION), false, number.position());
  }

  /** A base without a type takes the real type that its surroundings want. */
  Operand power(Operand left, Operand right, Position position, Optional<LogicType> wanted) {
    if (left.isWrong() || right.isWrong()) {
      return new Operand.Wrong(position);
    }
    Optional<Elementary> base = left instanceof Operand.Number ? Optional.of(real(wanted))
        : elementary(left).flatMap(type ->
        type.isReal() ? Optional.of(type) : type.isNumber() ? Conversions.common(type, Elementary.REAL)
            : Optional.empty());
    boolean exponent = right instanceof Operand.Number || elementary(right).filter(Elementary::isNumber).isPresent();
    if (base.isEmpty() || !exponent) {
      return mismatch("**", "a real and a number", left, right, position);
    }
    Value first = checking.adaptation().to(base.get(), left, "the base");
    Operand second = right instanceof Operand.Number ? right : widened(right);
    return new Operand.Typed(new Value.Standard(Operation.POWER,
        List.of(first, checking.adaptation().to(Elementary.LREAL, second, "the exponent")), base.get(), position),
            position);
  }

  /** An exponent as LREAL, which holds every exponent that matters. */
  private Operand widened(Operand operand) {
    Elementary type = elementary(operand).orElseThrow();
    return new Operand.Typed(checking.adaptation().convert(value(operand), type, Elementary.LREAL, operand.position()),
        operand.position());
  }

  Operand compare(Value.Relation relation, String symbol, Operand left, Operand right, Position position) {
    if (left.isWrong() || right.isWrong()) {
      return new Operand.Wrong(position);
    }
    if (left instanceof Operand.Number first && right instanceof Operand.Number second) {
      int order = first.value().compareTo(second.value());
      return fold(new Value.Constant(holds(relation, order) ? 1 : 0, Elementary.BOOL), position);
    }
    boolean equality = relation == Value.Relation.EQUAL || relation == Value.Relation.NOT_EQUAL;
    if (left instanceof Operand.Typed first && right instanceof Operand.Typed second) {
      if (first.type() instanceof LogicType.EnumerationType && first.type().equals(second.type()) && equality) {
        return fold(new Value.Compare(relation, first.value(), second.value()), position);
      }
      if (first.type() instanceof LogicType.StringType one && second.type() instanceof LogicType.StringType other
          && one.wide() == other.wide()) {
        Value order = new Value.Standard(Operation.COMPARE_TEXT, List.of(first.value(), second.value()),
            Elementary.DINT, position);
        return fold(new Value.Compare(relation, order, new Value.Constant(0, Elementary.DINT)), position);
      }
    }
    Optional<LogicType.EnumerationType> enumeration = enumeration(left, right);
    if (enumeration.isPresent()) {
      checking.adaptation().numbers(position, enumeration.get());
      return compare(relation, symbol, checking.adaptation().number(left), checking.adaptation().number(right),
          position);
    }
    Optional<Elementary> common = common(left, right);
    if (common.isEmpty() || common.get() == Elementary.BOOL && !equality) {
      return mismatch(symbol, common.isEmpty() ? "two values of one type" : "ordered values", left, right, position);
    }
    return fold(new Value.Compare(relation, checking.adaptation().to(common.get(), left, "the left operand"),
        checking.adaptation().to(common.get(), right, "the right operand")), position);
  }

  /** The enumeration of which a member is compared as a number: with another of it by order, or with an integer. */
  private static Optional<LogicType.EnumerationType> enumeration(Operand left, Operand right) {
    Optional<LogicType.EnumerationType> first = enumeration(left);
    Optional<LogicType.EnumerationType> second = enumeration(right);
    return first.isPresent() && second.isPresent() ? first.filter(second.get()::equals)
        : first.filter(type -> counts(right)).or(() -> second.filter(type -> counts(left)));
  }

  private static Optional<LogicType.EnumerationType> enumeration(Operand operand) {
    return operand instanceof Operand.Typed typed && typed.type() instanceof LogicType.EnumerationType type
        ? Optional.of(type) : Optional.empty();
  }

  private static boolean counts(Operand operand) {
    return operand instanceof Operand.Number number && number.whole()
        || elementary(operand).filter(Elementary::isInteger).isPresent();
  }

  private static boolean holds(Value.Relation relation, int order) {
    return switch (relation) {
      case LESS -> order < 0;
      case AT_MOST -> order <= 0;
      case EQUAL -> order == 0;
      case NOT_EQUAL -> order != 0;
      case AT_LEAST -> order >= 0;
      case GREATER -> order > 0;
    };
  }

  Operand logic(Value.Connective connective, String symbol, Operand left, Operand right, Position position) {
    if (left.isWrong() || right.isWrong()) {
      return new Operand.Wrong(position);
    }
    Optional<Elementary> common = common(left, right).filter(Elementary::isBits);
    Operand wrong = isBits(left) ? right : left;
    if (common.isEmpty() && isBits(left) != isBits(right) && !(wrong instanceof Operand.Number)) {
      diagnostics.error(wrong.position(), symbol + " needs BOOL or bit strings, but the operand is "
          + wrong.typeName(), Adaptation.hint(wrong, elementary(isBits(left) ? left : right).orElseThrow()));
      return new Operand.Wrong(position);
    }
    if (common.isEmpty()) {
      return mismatch(symbol, "BOOL or bit strings", left, right, position);
    }
    return fold(new Value.Logic(connective, checking.adaptation().to(common.get(), left, "the left operand"),
        checking.adaptation().to(common.get(), right, "the right operand"), common.get()), position);
  }

  private static boolean isBits(Operand operand) {
    return elementary(operand).filter(Elementary::isBits).isPresent();
  }

  /** AND_THEN and OR_ELSE, which are for truth values only. */
  private Operand truth(Value.Connective connective, String symbol, Operand left, Operand right, Position position) {
    if (left.isWrong() || right.isWrong()) {
      return new Operand.Wrong(position);
    }
    Optional<Elementary> common = common(left, right).filter(type -> type == Elementary.BOOL);
    return common.isEmpty() ? mismatch(symbol, "two BOOL", left, right, position)
        : logic(connective, symbol, left, right, position);
  }

  /** The type in which two operands meet; a number takes the type of the other side. */
  Optional<Elementary> common(Operand left, Operand right) {
    Optional<Elementary> first = elementary(left);
    Optional<Elementary> second = elementary(right);
    if (first.isPresent() && second.isPresent()) {
      return Conversions.common(first.get(), second.get());
    }
    Operand number = left instanceof Operand.Number ? left : right;
    Optional<Elementary> other = left instanceof Operand.Number ? second : first;
    if (!(number instanceof Operand.Number literal) || other.isEmpty()) {
      return Optional.empty();
    }
    if (!literal.whole() && other.get().isInteger()) {
      return Conversions.common(other.get(), Elementary.REAL);
    }
    return checking.adaptation().fits(other.get(), literal) ? widened(other.get(), literal) : Optional.empty();
  }

  /** The type itself, or for an integer too narrow for the literal the next one that holds both. */
  private static Optional<Elementary> widened(Elementary type, Operand.Number literal) {
    if (!type.isInteger()) {
      return Optional.of(type);
    }
    BigInteger value = literal.value().toBigInteger();
    return List.of(type, Elementary.INT, Elementary.DINT, Elementary.LINT).stream()
        .filter(wider -> Conversions.implicit(type, wider))
        .filter(wider -> value.compareTo(wider.least()) >= 0 && value.compareTo(wider.greatest()) <= 0)
        .findFirst().or(() -> Optional.of(type));
  }

  static Optional<Elementary> elementary(Operand operand) {
    return operand instanceof Operand.Typed typed ? Conversions.operand(typed.type()) : Optional.empty();
  }

  private static Value value(Operand operand) {
    return ((Operand.Typed) operand).value();
  }

  private Operand fold(Value value, Position position) {
    return new Operand.Typed(checking.folder().fold(value), position);
  }

  private Operand mismatch(String symbol, String needed, Operand left, Operand right, Position position) {
    String hint = elementary(left).isPresent() && elementary(right).isPresent() && elementary(left).get().isNumber()
        && elementary(right).get().isNumber() && elementary(left).get() != elementary(right).get()
        ? "convert one side, such as with " + elementary(right).get().name() + "_TO_"
        + elementary(left).get().name() : "";
    diagnostics.error(position, symbol + " needs " + needed + ", but the operands are " + left.typeName() + " and "
        + right.typeName(), hint);
    return new Operand.Wrong(position);
  }
}
