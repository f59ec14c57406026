package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Elementary.Kind;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.LogicType.StringType;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The conversion functions, by the form of their name: {@code X_TO_Y}, {@code TO_Y}, {@code X_TRUNC_Y},
 * {@code TRUNC_Y}, {@code TRUNC}, {@code X_BCD_TO_Y}, {@code Y_TO_BCD_X}: the standard's tables 22 to 27. Durations
 * convert to numbers of milliseconds, LTIME to nanoseconds: common practice, no source.
 */
final class ConversionFunctions {

  private static final long MILLISECOND = 1_000_000L;
  private static final Pattern FROM_BCD = Pattern.compile("([A-Z]+)_BCD_TO_([A-Z]+)");
  private static final Pattern TO_BCD = Pattern.compile("([A-Z]+)_TO_BCD_([A-Z]+)");
  private static final Pattern TRUNCATE = Pattern.compile("(?:([A-Z]+)_)?TRUNC(?:_([A-Z]+))?");
  private static final Pattern CONVERT = Pattern.compile("(?:([A-Z_]+)_)?TO_([A-Z_]+)");

  private final Diagnostics diagnostics;
  private final Checking checking;

  ConversionFunctions(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
  }

  /** The conversion of that name, or nothing where the name has none of the forms. */
  Optional<Operand> call(Name name, Expression.Call call) {
    Matcher fromBcd = FROM_BCD.matcher(name.key());
    Matcher toBcd = TO_BCD.matcher(name.key());
    Matcher truncate = TRUNCATE.matcher(name.key());
    Matcher convert = CONVERT.matcher(name.key());
    if (fromBcd.matches()) {
      return binaryCoded(name, call, fromBcd.group(1), fromBcd.group(2), Operation.FROM_BCD);
    }
    if (toBcd.matches()) {
      return binaryCoded(name, call, toBcd.group(1), toBcd.group(2), Operation.TO_BCD);
    }
    if (truncate.matches()) {
      Optional<Elementary> to = truncate.group(2) == null ? Optional.of(Elementary.DINT)
          : Elementary.named(truncate.group(2));
      Optional<Elementary> from = truncate.group(1) == null ? Optional.empty() : Elementary.named(truncate.group(1));
      boolean known = to.filter(Elementary::isInteger).isPresent()
          && (truncate.group(1) == null || from.filter(Elementary::isReal).isPresent());
      return known ? Optional.of(truncated(name, call, from, to.get())) : Optional.empty();
    }
    if (!convert.matches()) {
      return Optional.empty();
    }
    Optional<LogicType> to = type(convert.group(2));
    Optional<LogicType> from = convert.group(1) == null ? Optional.empty() : type(convert.group(1));
    boolean known = to.isPresent() && (convert.group(1) == null || from.isPresent());
    return known ? Optional.of(converted(name, call, from, to.get())) : Optional.empty();
  }

  private static Optional<LogicType> type(String word) {
    if (word.equals("STRING") || word.equals("WSTRING")) {
      return Optional.of(new StringType(word.startsWith("W"), StringType.DEFAULT_LENGTH));
    }
    return Elementary.named(word).map(type -> type);
  }

  private Operand argument(Name name, Expression.Call call) {
    if (call.arguments().size() == 1) {
      Expression.Argument argument = call.arguments().get(0);
      if (argument instanceof Expression.Positional positional) {
        return checking.expressions().check(positional.value(), Optional.empty());
      }
      if (argument instanceof Expression.Input input && input.parameter().key().equals("IN")) {
        return checking.expressions().check(input.value(), Optional.empty());
      }
    }
    diagnostics.error(call.position(), name + " takes 1 argument, here are " + call.arguments().size(), "it takes IN");
    return new Operand.Wrong(call.position());
  }

  private Optional<Operand> binaryCoded(Name name, Expression.Call call, String fromWord, String toWord,
      Operation operation) {
    Optional<Elementary> from = Elementary.named(fromWord);
    Optional<Elementary> to = Elementary.named(toWord);
    boolean decode = operation == Operation.FROM_BCD;
    boolean known = from.isPresent() && to.isPresent() && (decode ? from : to).get().kind() == Kind.BITS
        && (decode ? to : from).get().kind() == Kind.UNSIGNED;
    if (!known) {
      return Optional.empty();
    }
    Value value = checking.adaptation().to(from.get(), argument(name, call), "the argument of " + name);
    int bits = (decode ? from : to).get().bits();
    Value coded = new Value.Standard(operation, List.of(value, new Value.Constant(bits, Elementary.LINT)),
        decode ? Elementary.ULINT : to.get(), call.position());
    return Optional.of(typed(decode ? new Value.Convert(coded, Elementary.ULINT, to.get(), false, call.position())
        : coded, call.position()));
  }

  private Operand truncated(Name name, Expression.Call call, Optional<Elementary> from, Elementary to) {
    Operand argument = argument(name, call);
    Elementary source = from.orElseGet(() -> OperatorChecker.elementary(argument).orElse(Elementary.LREAL));
    if (!source.isReal() && !argument.isWrong()) {
      diagnostics.error(argument.position(), name + " needs REAL or LREAL, but this is " + argument.typeName());
      return new Operand.Wrong(call.position());
    }
    Value value = checking.adaptation().to(source.isReal() ? source : Elementary.LREAL, argument, "the argument of "
        + name);
    return typed(new Value.Convert(value, source.isReal() ? source : Elementary.LREAL, to, true, call.position()),
        call.position());
  }

  private Operand converted(Name name, Expression.Call call, Optional<LogicType> from, LogicType to) {
    Operand argument = argument(name, call);
    if (argument.isWrong()) {
      return argument;
    }
    if (argument instanceof Operand.Number number && from.isEmpty()) {
      return typed(checking.adaptation().to(to, number, "the argument of " + name), call.position());
    }
    boolean enumeration = argument instanceof Operand.Typed typed && typed.type() instanceof LogicType.EnumerationType;
    LogicType source = enumeration ? ((Operand.Typed) argument).type().stored().orElseThrow()
        : from.orElseGet(() -> argument instanceof Operand.Typed typed ? Conversions.operand(typed.type())
        .map(LogicType.class::cast).orElse(typed.type()) : Elementary.BOOL);
    Value value = enumeration ? ((Operand.Typed) argument).value()
        : checking.adaptation().to(from.orElse(source), argument, "the argument of " + name);
    Optional<Value> converted = convert(value, source, to, call.position());
    if (converted.isEmpty()) {
      diagnostics.error(call.position(), "there is no conversion from " + source.name() + " to " + to.name());
      return new Operand.Wrong(call.position());
    }
    return typed(checking.folder().fold(converted.get()), call.position());
  }

  private Optional<Value> convert(Value value, LogicType from, LogicType to, Position position) {
    if (from instanceof Elementary source && to instanceof Elementary target) {
      return elementary(value, source, target, position);
    }
    if (from instanceof Elementary source && to instanceof StringType string) {
      return toText(value, source, string, position);
    }
    if (from instanceof StringType string && to instanceof Elementary target) {
      return fromText(value, string, target, position);
    }
    if (from instanceof StringType source && to instanceof StringType target) {
      return Optional.of(source.wide() && !target.wide() ? standard(Operation.TEXT_TO_NARROW, target, position, value)
          : source.wide() == target.wide() ? value : standard(Operation.TRUNCATE_TEXT, target, position, value,
          whole(target.length())));
    }
    return Optional.empty();
  }

  private Optional<Value> elementary(Value value, Elementary from, Elementary to, Position position) {
    boolean numeric = isWord(from) && isWord(to);
    boolean characters = from.kind() == Kind.CHARACTER && (to.isUnsigned() || to.kind() == Kind.CHARACTER)
        || to.kind() == Kind.CHARACTER && from.isUnsigned();
    if (numeric && (from.kind() == Kind.REAL && to.kind() == Kind.BITS || from.kind() == Kind.BITS
        && to.kind() == Kind.REAL)) {
      return realBits(value, from, to, position);
    }
    if (numeric || characters || from.kind() == to.kind()) {
      return Optional.of(from == to ? value : new Value.Convert(value, from, to, false, position));
    }
    if (from.kind() == Kind.DURATION && to.isNumber()) {
      return Optional.of(fromDuration(value, from, to, position));
    }
    if (to.kind() == Kind.DURATION && from.isNumber()) {
      return Optional.of(toDuration(value, from, to, position));
    }
    if (from.kind() == Kind.DATE_TIME && to.kind() == Kind.DATE) {
      return Optional.of(standard(Operation.DAY_OF, to, position, value));
    }
    if (from.kind() == Kind.DATE_TIME && to.kind() == Kind.CLOCK) {
      return Optional.of(standard(Operation.CLOCK_OF, to, position, value));
    }
    return Optional.empty();
  }

  private static boolean isWord(Elementary type) {
    return type.isNumber() || type.isBits();
  }

  /** Binary transfer between reals and bit strings of the same width. */
  private Optional<Value> realBits(Value value, Elementary from, Elementary to, Position position) {
    if (from.bits() != to.bits()) {
      return Optional.empty();
    }
    Operation operation = from.isReal() ? from == Elementary.REAL ? Operation.SINGLE_BITS : Operation.REAL_BITS
        : to == Elementary.REAL ? Operation.BITS_SINGLE : Operation.BITS_REAL;
    return Optional.of(standard(operation, to, position, value));
  }

  private Value fromDuration(Value value, Elementary from, Elementary to, Position position) {
    if (to.isReal()) {
      Value milliseconds = from == Elementary.LTIME ? new Value.Convert(value, Elementary.LINT, Elementary.LREAL, false,
          position)
          : standard(Operation.MILLISECONDS_REAL_OF, Elementary.LREAL, position, value);
      return new Value.Convert(milliseconds, Elementary.LREAL, to, false, position);
    }
    Value count = from == Elementary.LTIME ? value : standard(Operation.MILLISECONDS_OF, Elementary.LINT, position,
        value);
    return new Value.Convert(count, Elementary.LINT, to, false, position);
  }

  private Value toDuration(Value value, Elementary from, Elementary to, Position position) {
    if (from.isReal() && to != Elementary.LTIME) {
      Value milliseconds = new Value.Convert(value, from, Elementary.LREAL, false, position);
      Value factor = new Value.Constant(Double.doubleToRawLongBits(MILLISECOND), Elementary.LREAL);
      return new Value.Convert(new Value.Arithmetic(Value.Operator.MULTIPLY, milliseconds, factor, Elementary.LREAL,
          position), Elementary.LREAL, to, false, position);
    }
    Value count = new Value.Convert(value, from, Elementary.LINT, false, position);
    return to == Elementary.LTIME ? new Value.Convert(count, Elementary.LINT, to, false, position)
        : new Value.Arithmetic(Value.Operator.MULTIPLY, count, whole(MILLISECOND), to, position);
  }

  private Optional<Value> toText(Value value, Elementary from, StringType to, Position position) {
    Operation operation = switch (from.kind()) {
      case BOOLEAN -> Operation.TRUTH_TO_TEXT;
      case BITS, SIGNED, UNSIGNED -> Operation.INTEGER_TO_TEXT;
      case REAL -> from == Elementary.REAL ? Operation.SINGLE_TO_TEXT : Operation.REAL_TO_TEXT;
      case DURATION -> Operation.DURATION_TO_TEXT;
      case CHARACTER -> Operation.CHARACTER_TO_TEXT;
      case DATE, CLOCK, DATE_TIME -> null;
    };
    if (operation == null) {
      return Optional.empty();
    }
    return Optional.of(operation == Operation.INTEGER_TO_TEXT
        ? standard(operation, to, position, value, whole(from.isUnsigned() ? 1 : 0))
            : standard(operation, to, position, value));
  }

  private Optional<Value> fromText(Value value, StringType from, Elementary to, Position position) {
    return switch (to.kind()) {
      case BOOLEAN -> Optional.of(standard(Operation.TEXT_TO_TRUTH, to, position, value));
      case SIGNED, UNSIGNED, BITS -> Optional.of(new Value.Convert(
          standard(Operation.TEXT_TO_INTEGER, to.bits() == 64 ? to : Elementary.LINT, position, value,
          whole(to.isUnsigned() ? 1 : 0)),
          to.bits() == 64 ? to : Elementary.LINT, to, false, position));
      case REAL -> Optional.of(new Value.Convert(standard(Operation.TEXT_TO_REAL, Elementary.LREAL, position, value),
          Elementary.LREAL, to, false, position));
      case CHARACTER -> Optional.of(standard(Operation.TEXT_TO_CHARACTER, to, position, value));
      case DURATION, DATE, CLOCK, DATE_TIME -> Optional.empty();
    };
  }

  private static Value whole(long number) {
    return new Value.Constant(number, Elementary.LINT);
  }

  private static Value standard(Operation operation, LogicType type, Position position, Value... operands) {
    return new Value.Standard(operation, List.of(operands), type, position);
  }

  private static Operand typed(Value value, Position position) {
    return new Operand.Typed(value, position);
  }
}
