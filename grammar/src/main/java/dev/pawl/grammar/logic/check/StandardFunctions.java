package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/** The standard functions: the standard's tables 22 to 36. Conversions are found by the form of their name. */
final class StandardFunctions {

  /** Arguments of an extensible function. */
  private static final int MOST_ARGUMENTS = 64;

  private static final Map<String, Definition> DEFINITIONS = new HashMap<>();

  private final Diagnostics diagnostics;
  private final Checking checking;
  private final OperatorChecker operators;
  private final ConversionFunctions conversions;

  /** The type that numbers without one take in the call at hand. */
  private Optional<Elementary> wanted = Optional.empty();

  /** How a function is computed from its checked arguments. */
  interface Rule {
    Operand apply(StandardFunctions functions, Arguments arguments);
  }

  /**
   * A function.
   *
   * @param parameters formal names; the last one is numbered and may repeat where the function is extensible
   */
  private record Definition(List<String> parameters, boolean extensible, Rule rule) {}

  /** The arguments of a call, in the order of the parameters. */
  record Arguments(Name function, List<Operand> operands, Position position) {
    Operand get(int index) {
      return operands.get(index);
    }

    boolean wrong() {
      return operands.stream().anyMatch(Operand.Wrong.class::isInstance);
    }
  }

  static {
    NumericRules.define();
    SelectionRules.define();
    TextRules.define();
  }

  StandardFunctions(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
    this.operators = new OperatorChecker(diagnostics, checking);
    this.conversions = new ConversionFunctions(diagnostics, checking);
  }

  /** The type that the surroundings of the call at hand want. */
  Optional<LogicType> wanted() {
    return wanted.map(type -> type);
  }

  OperatorChecker operators() {
    return operators;
  }

  /** An operand as a value of a type, as {@link Adaptation#to} gives it. */
  Value adapted(LogicType type, Operand operand, String role) {
    return checking.adaptation().to(type, operand, role);
  }

  boolean fits(LogicType type, Operand operand) {
    return checking.adaptation().fits(type, operand);
  }

  static boolean isStandard(String key) {
    return DEFINITIONS.containsKey(key) || key.equals("LOWER_BOUND") || key.equals("UPPER_BOUND");
  }

  static void fixed(String name, String parameters, Rule rule) {
    DEFINITIONS.put(name, new Definition(List.of(parameters.split(" ")), false, rule));
  }

  private static final String ADDRESSES = "variables have no address here: pass the variable itself, by VAR_IN_OUT";

  static void extensible(String name, String parameters, Rule rule) {
    DEFINITIONS.put(name, new Definition(List.of(parameters.split(" ")), true, rule));
  }

  Operand call(Name name, Expression.Call call, Optional<LogicType> surroundings) {
    Definition definition = DEFINITIONS.get(name.key());
    if (definition == null) {
      Optional<Operand> converted = conversions.call(name, call);
      return converted.orElseGet(() -> unknown(name, call));
    }
    Optional<LogicType> real = surroundings.filter(type -> Conversions.operand(type).filter(Elementary::isReal)
        .isPresent());
    Optional<List<Operand>> operands = arrange(name, definition, call, real);
    if (operands.isEmpty()) {
      return new Operand.Wrong(call.position());
    }
    Arguments arguments = new Arguments(name, operands.get(), call.position());
    wanted = surroundings.flatMap(Conversions::operand).filter(type -> type.isNumber() || type.isBits());
    return arguments.wrong() ? new Operand.Wrong(call.position()) : definition.rule().apply(this, arguments);
  }

  /** Functions that programs use and the standard has not, with what can be written instead. */
  private static final Map<String, String> FOREIGN = Map.of("ADR", ADDRESSES, "ADRINST", ADDRESSES, "BITADR", ADDRESSES,
      "SIZEOF", "variables have no size in memory here: write the number",
      "TIME", "no clock runs within a scan: use the output ET of a timer");

  /** A function that nothing declares; what its arguments lack is told with it. */
  private Operand unknown(Name name, Expression.Call call) {
    call.arguments().stream().flatMap(argument -> argument.match(it -> Stream.of(it.value()), it -> Stream.of(
        it.value()), it -> it.target().stream())).forEach(it -> checking.expressions().check(it, Optional.empty()));
    if (FOREIGN.containsKey(name.key())) {
      diagnostics.cause(name.position(), name + " is not supported", FOREIGN.get(name.key()), "foreign", name.text());
      return new Operand.Wrong(name.position());
    }
    List<String> known = new ArrayList<>(DEFINITIONS.keySet());
    known.addAll(checking.units().functionNames());
    diagnostics.cause(name.position(), "there is no function " + name,
        NearName.hint(name.text(), known).orElse("if another file declares it, give that too"),
        "function", name.text());
    return new Operand.Wrong(name.position());
  }

  /**
   * The arguments in the order of the parameters, or nothing after a report.
   *
   * @param real the real type that the surroundings want, which numbers in the arguments take
   */
  private Optional<List<Operand>> arrange(Name name, Definition definition, Expression.Call call,
      Optional<LogicType> real) {
    int least = definition.parameters().size();
    int count = call.arguments().size();
    if (count < least || count > (definition.extensible() ? MOST_ARGUMENTS : least)) {
      String wanted = definition.extensible() ? least + " to " + MOST_ARGUMENTS : Integer.toString(least);
      diagnostics.error(call.position(), name + " takes " + wanted + (wanted.equals("1") ? " argument" : " arguments")
          + ", here are " + count, "it takes " + String.join(", ", definition.parameters())
          + (definition.extensible() ? " and more" : ""));
      return Optional.empty();
    }
    Operand[] operands = new Operand[count];
    for (int i = 0; i < count; i++) {
      Expression.Argument argument = call.arguments().get(i);
      int index = argument instanceof Expression.Input input ? position(definition, input.parameter().key()) : i;
      boolean taken = index < 0 || index >= count || operands[index] != null;
      if (argument instanceof Expression.Output || taken) {
        Name parameter = argument instanceof Expression.Input input ? input.parameter()
            : argument instanceof Expression.Output output ? output.parameter() : name;
        diagnostics.error(parameter.position(), name + " has no parameter " + parameter + " that is still free",
            "it takes " + String.join(", ", definition.parameters()));
        return Optional.empty();
      }
      Expression value = argument instanceof Expression.Input input ? input.value() : ((Expression.Positional) argument)
          .value();
      operands[index] = checking.expressions().check(value, real);
    }
    return Optional.of(List.of(operands));
  }

  private static int position(Definition definition, String key) {
    int index = definition.parameters().indexOf(key);
    if (index >= 0 || !definition.extensible()) {
      return index;
    }
    String last = definition.parameters().get(definition.parameters().size() - 1);
    String stem = last.substring(0, last.length() - 1);
    if (!key.startsWith(stem) || !key.substring(stem.length()).matches("[0-9]{1,3}")) {
      return -1;
    }
    int lastNumber = last.charAt(last.length() - 1) - '0';
    return definition.parameters().size() - 1 + Integer.parseInt(key.substring(stem.length())) - lastNumber;
  }

  Operand typed(Operation operation, LogicType type, Position position, Value... operands) {
    return new Operand.Typed(new Value.Standard(operation, List.of(operands), type, position), position);
  }

  Operand refuse(Arguments arguments, String needed) {
    String given = String.join(", ", arguments.operands().stream().map(Operand::typeName).toList());
    diagnostics.error(arguments.position(), arguments.function() + " needs " + needed + ", but the arguments are "
        + given);
    return new Operand.Wrong(arguments.position());
  }

  /** The elementary type in which all arguments meet. */
  Optional<Elementary> common(List<Operand> operands) {
    if (operands.stream().allMatch(Operand.Number.class::isInstance)) {
      boolean whole = operands.stream().allMatch(operand -> ((Operand.Number) operand).whole());
      return wanted.filter(type -> whole || type.isReal())
          .or(() -> Optional.of(whole ? Elementary.DINT : Elementary.LREAL));
    }
    Optional<Elementary> type = Optional.empty();
    for (Operand operand : operands) {
      Optional<Elementary> own = OperatorChecker.elementary(operand);
      if (own.isPresent()) {
        type = type.isEmpty() ? own : Conversions.common(type.get(), own.get());
      } else if (!(operand instanceof Operand.Number)) {
        return Optional.empty();
      }
      if (own.isPresent() && type.isEmpty()) {
        return Optional.empty();
      }
    }
    boolean fraction = operands.stream().anyMatch(operand -> operand instanceof Operand.Number number
        && !number.whole());
    return fraction && type.get().isInteger() ? Conversions.common(type.get(), Elementary.REAL) : type;
  }

  /** The type in which all arguments meet, enumerations and strings included. */
  Optional<LogicType> meeting(List<Operand> operands) {
    if (operands.get(0) instanceof Operand.Typed first) {
      boolean same = operands.stream().allMatch(operand -> operand instanceof Operand.Typed typed && typed.type()
          .equals(first.type()));
      if (same) {
        return Optional.of(first.type());
      }
      if (first.type() instanceof LogicType.StringType string) {
        return operands.stream().allMatch(operand -> operand instanceof Operand.Typed typed
            && typed.type() instanceof LogicType.StringType other && other.wide() == string.wide())
            ? Optional.of(new LogicType.StringType(string.wide(), LogicType.StringType.DEFAULT_LENGTH))
                : Optional.empty();
      }
    }
    return common(operands).map(type -> type);
  }
}
