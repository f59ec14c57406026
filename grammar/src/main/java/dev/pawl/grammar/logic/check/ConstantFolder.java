package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.source.Diagnostics;
import java.math.BigInteger;
import java.util.Optional;

/** The computation of operations on constants at compile time. */
final class ConstantFolder implements Value.Question<Value> {

  private final Diagnostics diagnostics;

  ConstantFolder(Diagnostics diagnostics) {
    this.diagnostics = diagnostics;
  }

  /** The constant a value amounts to, or the value itself. Its operands are folded already. */
  Value fold(Value value) {
    return value.accept(this);
  }

  @Override
  public Value otherwise(Value e) {
    return e;
  }

  @Override
  public Value visit(Value.Negate e) {
    return e.operand() instanceof Value.Constant constant ? negate(e, constant) : e;
  }

  @Override
  public Value visit(Value.Complement e) {
    return e.operand() instanceof Value.Constant constant ? new Value.Constant(~constant.word() & mask(e.type()),
        e.type()) : e;
  }

  @Override
  public Value visit(Value.Logic e) {
    if (!(e.left() instanceof Value.Constant left) || !(e.right() instanceof Value.Constant right)) {
      return e;
    }
    return new Value.Constant(switch (e.connective()) {
      case AND, AND_THEN -> left.word() & right.word();
      case OR, OR_ELSE -> left.word() | right.word();
      case XOR -> left.word() ^ right.word();
    }, e.type());
  }

  @Override
  public Value visit(Value.Convert e) {
    return e.operand() instanceof Value.Constant constant ? convert(e, constant) : e;
  }

  static long mask(Elementary type) {
    return type.bits() == 64 ? -1L : (1L << type.bits()) - 1;
  }

  /** A word of a whole-number type as a number. */
  static BigInteger number(long word, Elementary type) {
    BigInteger signed = BigInteger.valueOf(word);
    return type.isUnsigned() && word < 0 ? signed.add(BigInteger.ONE.shiftLeft(64)) : signed;
  }

  @Override
  public Value visit(Value.Arithmetic value) {
    boolean zero = value.right() instanceof Value.Constant constant && constant.word() == 0 && !value.type().isReal();
    boolean divides = value.operator() == Value.Operator.DIVIDE || value.operator() == Value.Operator.MODULO;
    if (zero && divides) {
      diagnostics.error(value.position(), "division by zero");
      return new Value.Constant(0, value.type());
    }
    if (!(value.left() instanceof Value.Constant left) || !(value.right() instanceof Value.Constant right)) {
      return value;
    }
    if (value.type().isReal()) {
      double result = real(value.operator(), Double.longBitsToDouble(left.word()),
          Double.longBitsToDouble(right.word()));
      double rounded = value.type() == Elementary.REAL ? (float) result : result;
      return new Value.Constant(Double.doubleToRawLongBits(rounded), value.type());
    }
    BigInteger result = whole(value.operator(), number(left.word(), value.type()), number(right.word(), value.type()));
    return ranged(result, value.type(), value).orElse(value);
  }

  private Optional<Value> ranged(BigInteger result, Elementary type, Value.Arithmetic value) {
    BigInteger least = type.isInteger() ? type.least() : Elementary.LINT.least();
    BigInteger greatest = type.isInteger() ? type.greatest() : Elementary.LINT.greatest();
    if (result.compareTo(least) < 0 || result.compareTo(greatest) > 0) {
      diagnostics.error(value.position(), "the result " + result + " does not fit " + type.name());
      return Optional.empty();
    }
    return Optional.of(new Value.Constant(result.longValue(), type));
  }

  private static BigInteger whole(Value.Operator operator, BigInteger left, BigInteger right) {
    return switch (operator) {
      case ADD -> left.add(right);
      case SUBTRACT -> left.subtract(right);
      case MULTIPLY -> left.multiply(right);
      case DIVIDE -> left.divide(right);
      case MODULO -> left.remainder(right);
    };
  }

  private static double real(Value.Operator operator, double left, double right) {
    return switch (operator) {
      case ADD -> left + right;
      case SUBTRACT -> left - right;
      case MULTIPLY -> left * right;
      case DIVIDE -> left / right;
      case MODULO -> left % right;
    };
  }

  private Value negate(Value.Negate value, Value.Constant constant) {
    if (value.type().isReal()) {
      return new Value.Constant(Double.doubleToRawLongBits(-Double.longBitsToDouble(constant.word())), value.type());
    }
    BigInteger result = number(constant.word(), value.type()).negate();
    boolean fits = !value.type().isInteger() || result.compareTo(value.type().least()) >= 0
        && result.compareTo(value.type().greatest()) <= 0;
    if (!fits || constant.word() == Long.MIN_VALUE) {
      diagnostics.error(value.position(), "the result " + result + " does not fit " + value.type().name());
      return value;
    }
    return new Value.Constant(result.longValue(), value.type());
  }

  private static Value convert(Value.Convert value, Value.Constant constant) {
    Elementary from = value.from();
    Elementary to = value.type();
    if (from.isInteger() && to.isReal()) {
      double number = number(constant.word(), from).doubleValue();
      return new Value.Constant(Double.doubleToRawLongBits(to == Elementary.REAL ? (float) number : number), to);
    }
    return Conversions.implicit(from, to) ? new Value.Constant(constant.word(), to) : value;
  }
}
