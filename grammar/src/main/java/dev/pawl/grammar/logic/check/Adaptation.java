package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.Optional;

/**
 * The adaptation of an operand to the type its surroundings want: numbers take it, values convert where nothing is
 * lost.
 */
final class Adaptation {

  private final Diagnostics diagnostics;
  private final LanguageChoices choices;
  private final ConstantFolder folder;

  Adaptation(Diagnostics diagnostics, LanguageChoices choices, ConstantFolder folder) {
    this.diagnostics = diagnostics;
    this.choices = choices;
    this.folder = folder;
  }

  /**
   * The operand as a value of the wanted type.
   *
   * @param role what the operand is, as messages say it, such as {@code the condition}
   * @return the value; some value of that type where the operand does not fit, which has then been reported
   */
  Value to(LogicType wanted, Operand operand, String role) {
    if (wanted instanceof LogicType.Unknown) {
      return anyValue(wanted);
    }
    return operand.match(
        typed -> typed(wanted, typed).or(() -> counted(wanted, typed)).orElseGet(() -> misfit(wanted, typed, role)),
        number -> number(wanted, number, role),
        whole -> misfit(wanted, whole, role),
        wrong -> anyValue(wanted));
  }

  private Value misfit(LogicType wanted, Operand operand, String role) {
    diagnostics.error(operand.position(), role + " must be " + wanted.name() + ", but this is " + operand.typeName(),
        hint(operand, wanted));
    return anyValue(wanted);
  }

  /** A member of an enumeration as its number, or the other way round, which is told. */
  private Optional<Value> counted(LogicType wanted, Operand.Typed operand) {
    boolean out = operand.type() instanceof LogicType.EnumerationType && isInteger(wanted);
    boolean in = wanted instanceof LogicType.EnumerationType && isInteger(operand.type());
    if (!out && !in) {
      return Optional.empty();
    }
    numbers(operand.position(), (LogicType.EnumerationType) (out ? operand.type() : wanted));
    Elementary to = wanted.stored().orElseThrow();
    if (operand.value() instanceof Value.Constant constant) {
      return Optional.of(new Value.Constant(word(BigInteger.valueOf(constant.word()), to, operand.position()), wanted));
    }
    return Optional.of(convert(operand.value(), operand.type().stored().orElseThrow(), to, operand.position()));
  }

  private static boolean isInteger(LogicType type) {
    return Conversions.operand(type).filter(Elementary::isInteger).isPresent();
  }

  /** Tells that members of an enumeration are used as numbers. */
  void numbers(Position position, LogicType.EnumerationType type) {
    diagnostics.once(Allowance.ENUMERATION_NUMBERS.found(choices, position, "a value of the enumeration " + type.name()
        + " stands where a number is meant, or a number where one of its values is",
        "compare and assign its members by name, with = and <>"), "enumeration", "");
  }

  /** The number of a member of an enumeration; any other operand as it is. */
  Operand number(Operand operand) {
    return operand instanceof Operand.Typed typed && typed.type() instanceof LogicType.EnumerationType
        ? new Operand.Typed(folder.fold(new Value.Convert(typed.value(), typed.type().stored().orElseThrow(),
            Elementary.LINT, false, operand.position())), operand.position()) : operand;
  }

  /** Whether the operand could be adapted; diagnostics nothing but numbers out of range. */
  boolean fits(LogicType wanted, Operand operand) {
    return operand.match(typed -> typed(wanted, typed).isPresent(), number -> {
      Optional<Elementary> base = Conversions.operand(wanted);
      return base.isPresent() && (base.get().isReal() || number.whole()
          && (base.get().isInteger() || base.get().isBits()));
    }, whole -> false, wrong -> true);
  }

  static Value anyValue(LogicType type) {
    if (type instanceof LogicType.StringType) {
      return new Value.Text("", type);
    }
    return new Value.Constant(0, type.scalar() ? type : Elementary.BOOL);
  }

  private Value number(LogicType wanted, Operand.Number number, String role) {
    Optional<Elementary> base = Conversions.operand(wanted);
    if (base.isPresent() && base.get().isReal()) {
      double value = number.value().doubleValue();
      double rounded = base.get() == Elementary.REAL ? (float) value : value;
      if (Double.isInfinite(rounded)) {
        diagnostics.error(number.position(), shown(number.value()) + " is too large for " + base.get().name());
      }
      return new Value.Constant(Double.doubleToRawLongBits(rounded), base.get());
    }
    if (base.isPresent() && number.whole() && (base.get().isInteger() || base.get().isBits())) {
      Value value = new Value.Constant(word(number.value().toBigInteger(), base.get(), number.position()), base.get());
      return wanted instanceof LogicType.SubrangeType subrange ? bounded(value, subrange, number.position()) : value;
    }
    if (wanted instanceof LogicType.EnumerationType enumeration && number.whole()
        && !(enumeration.stored().orElseThrow().isBits())) {
      numbers(number.position(), enumeration);
      return new Value.Constant(word(number.value().toBigInteger(), enumeration.stored().orElseThrow(),
          number.position()), wanted);
    }
    boolean duration = base.isPresent() && base.get().kind() == Elementary.Kind.DURATION;
    diagnostics.error(number.position(), role + " must be " + wanted.name() + ", but this is " + number.typeName(),
        duration ? "durations are written like T#2s or T#250ms" : base.isPresent() && base.get().isInteger()
            ? "write a whole number, or convert with " + "REAL_TO_" + base.get().name() : "");
    return anyValue(wanted);
  }

  /** A number as a word of a whole-number type; out of range is reported. */
  long word(BigInteger value, Elementary type, Position position) {
    if (value.compareTo(type.least()) < 0 || value.compareTo(type.greatest()) > 0) {
      diagnostics.error(position, value + " does not fit " + type.name() + ", which goes from " + type.least() + " to "
          + type.greatest());
      return 0;
    }
    return value.longValue();
  }

  private Optional<Value> typed(LogicType wanted, Operand.Typed operand) {
    LogicType type = operand.type();
    Value value = operand.value();
    if (wanted instanceof LogicType.StringType string) {
      return text(string, operand);
    }
    if (wanted instanceof LogicType.EnumerationType || type instanceof LogicType.EnumerationType) {
      return wanted.equals(type) ? Optional.of(value) : Optional.empty();
    }
    if (value instanceof Value.Text text && character(wanted, text)) {
      return Optional.of(new Value.Constant(text.text().charAt(0), wanted));
    }
    Optional<Elementary> from = Conversions.operand(type);
    Optional<Elementary> to = Conversions.operand(wanted);
    if (from.isEmpty() || to.isEmpty() || !Conversions.implicit(from.get(), to.get())) {
      return Optional.empty();
    }
    Value converted = convert(value, from.get(), to.get(), operand.position());
    boolean bounds = wanted instanceof LogicType.SubrangeType && !wanted.equals(type);
    return Optional.of(bounds ? bounded(converted, (LogicType.SubrangeType) wanted, operand.position()) : converted);
  }

  private static boolean character(LogicType wanted, Value.Text text) {
    boolean wide = ((LogicType.StringType) text.type()).wide();
    return text.text().length() == 1 && wanted == (wide ? Elementary.WCHAR : Elementary.CHAR);
  }

  private Optional<Value> text(LogicType.StringType wanted, Operand.Typed operand) {
    if (operand.type() instanceof LogicType.StringType string) {
      if (string.wide() != wanted.wide()) {
        return Optional.empty();
      }
      return Optional.of(string.length() <= wanted.length() ? operand.value()
          : truncated(operand.value(), wanted, operand.position()));
    }
    boolean character = operand.type() == (wanted.wide() ? Elementary.WCHAR : Elementary.CHAR);
    return character
        ? Optional.of(new Value.Standard(Operation.CHARACTER_TO_TEXT, List.of(operand.value()), wanted,
            operand.position()))
        : Optional.empty();
  }

  private static Value truncated(Value value, LogicType.StringType wanted, Position position) {
    if (value instanceof Value.Text text) {
      return new Value.Text(text.text().substring(0, Math.min(wanted.length(), text.text().length())), wanted);
    }
    return new Value.Standard(Operation.TRUNCATE_TEXT, List.of(value,
        new Value.Constant(wanted.length(), Elementary.DINT)), wanted, position);
  }

  Value convert(Value value, Elementary from, Elementary to, Position position) {
    return from == to ? value : folder.fold(new Value.Convert(value, from, to, false, position));
  }

  private Value bounded(Value value, LogicType.SubrangeType subrange, Position position) {
    if (value instanceof Value.Constant constant) {
      if (constant.word() < subrange.low() || constant.word() > subrange.high()) {
        diagnostics.error(position, constant.word() + " does not fit " + subrange.name() + ", which goes from "
            + subrange.low() + " to " + subrange.high());
      }
      return new Value.Constant(constant.word(), subrange);
    }
    return new Value.Bounded(value, subrange.low(), subrange.high(), subrange, position);
  }

  static String hint(Operand operand, LogicType wanted) {
    if (operand instanceof Operand.Whole whole && whole.place().type() instanceof BlockType) {
      return "name one of its outputs";
    }
    if (operand instanceof Operand.Typed typed && wanted.stored().isPresent() && typed.type().stored().isPresent()) {
      Elementary from = typed.type().stored().get();
      Elementary to = wanted.stored().get();
      if (wanted == Elementary.BOOL && from.isNumber()) {
        return "compare it, such as with <> 0";
      }
      if (wanted == Elementary.BOOL && from.kind() == Elementary.Kind.DURATION) {
        return "compare it, such as with > T#0s";
      }
      boolean enumerations = wanted instanceof LogicType.EnumerationType
          || typed.type() instanceof LogicType.EnumerationType;
      return enumerations ? "" : "convert it with " + from.name() + "_TO_" + to.name();
    }
    return "";
  }

  static String shown(BigDecimal value) {
    return value.stripTrailingZeros().toPlainString();
  }
}
