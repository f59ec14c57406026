package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.syntax.Expression;
import dev.pawl.grammar.logic.syntax.Name;
import dev.pawl.grammar.source.NearNames;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The standard functions: the standard's tables 22 to 36. Conversions are found by the form of their name. */
final class StandardFunctions {

  /** Arguments of an extensible function. */
  private static final int MOST_ARGUMENTS = 64;

  private static final Map<String, Definition> DEFINITIONS = new HashMap<>();

  private final Reports reports;
  private final Checking checking;
  private final OperatorChecker operators;
  private final ConversionFunctions conversions;

  /** The type that numbers without one take in the call at hand. */
  private Optional<Elementary> wanted = Optional.empty();

  /** How a function is computed from its checked arguments. */
  private interface Rule {
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
    TextRules.define();
  }

  StandardFunctions(Reports reports, Checking checking) {
    this.reports = reports;
    this.checking = checking;
    this.operators = new OperatorChecker(reports, checking);
    this.conversions = new ConversionFunctions(reports, checking);
  }

  static boolean isStandard(String key) {
    return DEFINITIONS.containsKey(key);
  }

  private static void fixed(String name, String parameters, Rule rule) {
    DEFINITIONS.put(name, new Definition(List.of(parameters.split(" ")), false, rule));
  }

  private static void extensible(String name, String parameters, Rule rule) {
    DEFINITIONS.put(name, new Definition(List.of(parameters.split(" ")), true, rule));
  }

  Operand call(Name name, Expression.Call call, Optional<LogicType> surroundings) {
    Definition definition = DEFINITIONS.get(name.key());
    if (definition == null) {
      Optional<Operand> converted = conversions.call(name, call);
      return converted.orElseGet(() -> unknown(name));
    }
    Optional<List<Operand>> operands = arrange(name, definition, call);
    if (operands.isEmpty()) {
      return new Operand.Wrong(call.position());
    }
    Arguments arguments = new Arguments(name, operands.get(), call.position());
    wanted = surroundings.flatMap(Conversions::operand).filter(type -> type.isNumber() || type.isBits());
    return arguments.wrong() ? new Operand.Wrong(call.position()) : definition.rule().apply(this, arguments);
  }

  private Operand unknown(Name name) {
    List<String> known = new ArrayList<>(DEFINITIONS.keySet());
    known.addAll(checking.units().functionNames());
    reports.error(name.position(), "there is no function " + name, NearNames.suggestion(name.text(), known));
    return new Operand.Wrong(name.position());
  }

  /** The arguments in the order of the parameters, or nothing after a report. */
  private Optional<List<Operand>> arrange(Name name, Definition definition, Expression.Call call) {
    int least = definition.parameters().size();
    int count = call.arguments().size();
    if (count < least || count > (definition.extensible() ? MOST_ARGUMENTS : least)) {
      String wanted = definition.extensible() ? least + " to " + MOST_ARGUMENTS : Integer.toString(least);
      reports.error(call.position(), name + " takes " + wanted + (wanted.equals("1") ? " argument" : " arguments") + ", here are " + count,
          "it takes " + String.join(", ", definition.parameters()) + (definition.extensible() ? " and more" : ""));
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
        reports.error(parameter.position(), name + " has no parameter " + parameter + " that is still free",
            "it takes " + String.join(", ", definition.parameters()));
        return Optional.empty();
      }
      Expression value = argument instanceof Expression.Input input ? input.value() : ((Expression.Positional) argument).value();
      operands[index] = checking.expressions().check(value, Optional.empty());
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

  private Operand typed(Operation operation, LogicType type, Position position, Value... operands) {
    return new Operand.Typed(new Value.Standard(operation, List.of(operands), type, position), position);
  }

  private Operand refuse(Arguments arguments, String needed) {
    String given = String.join(", ", arguments.operands().stream().map(Operand::typeName).toList());
    reports.error(arguments.position(), arguments.function() + " needs " + needed + ", but the arguments are " + given);
    return new Operand.Wrong(arguments.position());
  }

  /** The elementary type in which all arguments meet. */
  private Optional<Elementary> common(List<Operand> operands) {
    if (operands.stream().allMatch(Operand.Number.class::isInstance)) {
      boolean whole = operands.stream().allMatch(operand -> ((Operand.Number) operand).whole());
      return wanted.filter(type -> whole || type.isReal()).or(() -> Optional.of(whole ? Elementary.DINT : Elementary.LREAL));
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
    boolean fraction = operands.stream().anyMatch(operand -> operand instanceof Operand.Number number && !number.whole());
    return fraction && type.get().isInteger() ? Conversions.common(type.get(), Elementary.REAL) : type;
  }

  /** The type in which all arguments meet, enumerations and strings included. */
  private Optional<LogicType> meeting(List<Operand> operands) {
    if (operands.get(0) instanceof Operand.Typed first) {
      boolean same = operands.stream().allMatch(operand -> operand instanceof Operand.Typed typed && typed.type().equals(first.type()));
      if (same) {
        return Optional.of(first.type());
      }
      if (first.type() instanceof LogicType.StringType string) {
        return operands.stream().allMatch(operand -> operand instanceof Operand.Typed typed
            && typed.type() instanceof LogicType.StringType other && other.wide() == string.wide())
            ? Optional.of(new LogicType.StringType(string.wide(), LogicType.StringType.DEFAULT_LENGTH)) : Optional.empty();
      }
    }
    return common(operands).map(type -> type);
  }

  /** Numbers and bits. */
  private static final class NumericRules {

    private static void define() {
      fixed("ABS", "IN", NumericRules::absolute);
      real("SQRT", Operation.SQUARE_ROOT);
      real("LN", Operation.NATURAL_LOGARITHM);
      real("LOG", Operation.DECIMAL_LOGARITHM);
      real("EXP", Operation.EXPONENTIAL);
      real("SIN", Operation.SINE);
      real("COS", Operation.COSINE);
      real("TAN", Operation.TANGENT);
      real("ASIN", Operation.ARC_SINE);
      real("ACOS", Operation.ARC_COSINE);
      real("ATAN", Operation.ARC_TANGENT);
      fixed("ATAN2", "Y X", NumericRules::arcTangent);
      fixed("IS_VALID", "IN", (functions, arguments) -> functions.common(arguments.operands()).filter(Elementary::isReal)
          .map(type -> functions.typed(Operation.IS_VALID, Elementary.BOOL, arguments.position(),
              functions.checking.adaptation().to(type, arguments.get(0), "the argument")))
          .orElseGet(() -> functions.refuse(arguments, "REAL or LREAL")));
      chain("ADD", Value.Operator.ADD, "+");
      chain("MUL", Value.Operator.MULTIPLY, "*");
      pair("SUB", Value.Operator.SUBTRACT, "-");
      pair("DIV", Value.Operator.DIVIDE, "/");
      pair("MOD", Value.Operator.MODULO, "MOD");
      for (String name : List.of("ADD_TIME", "ADD_TOD_TIME", "ADD_DT_TIME", "ADD_LTIME", "ADD_LTOD_LTIME", "ADD_LDT_LTIME")) {
        pair(name, Value.Operator.ADD, "+");
      }
      for (String name : List.of("SUB_TIME", "SUB_DATE_DATE", "SUB_TOD_TIME", "SUB_TOD_TOD", "SUB_DT_TIME", "SUB_DT_DT", "SUB_LTIME")) {
        pair(name, Value.Operator.SUBTRACT, "-");
      }
      for (String name : List.of("MUL_TIME", "MULTIME", "MUL_LTIME")) {
        pair(name, Value.Operator.MULTIPLY, "*");
      }
      for (String name : List.of("DIV_TIME", "DIVTIME", "DIV_LTIME")) {
        pair(name, Value.Operator.DIVIDE, "/");
      }
      fixed("EXPT", "IN1 IN2", (functions, arguments) ->
          functions.operators.power(arguments.get(0), arguments.get(1), arguments.position()));
      fixed("MOVE", "IN", (functions, arguments) -> arguments.get(0));
      shift("SHL", Operation.SHIFT_LEFT);
      shift("SHR", Operation.SHIFT_RIGHT);
      shift("ROL", Operation.ROTATE_LEFT);
      shift("ROR", Operation.ROTATE_RIGHT);
      connect("AND", Value.Connective.AND);
      connect("OR", Value.Connective.OR);
      connect("XOR", Value.Connective.XOR);
      relate("GT", Value.Relation.GREATER);
      relate("GE", Value.Relation.AT_LEAST);
      relate("EQ", Value.Relation.EQUAL);
      relate("LE", Value.Relation.AT_MOST);
      relate("LT", Value.Relation.LESS);
      fixed("NE", "IN1 IN2", (functions, arguments) ->
          functions.operators.compare(Value.Relation.NOT_EQUAL, "NE", arguments.get(0), arguments.get(1), arguments.position()));
      fixed("SEL", "G IN0 IN1", NumericRules::select);
      extensible("MUX", "K IN0 IN1", NumericRules::multiplex);
      extensible("MAX", "IN1 IN2", (functions, arguments) -> extreme(functions, arguments, arguments.operands(), true));
      extensible("MIN", "IN1 IN2", (functions, arguments) -> extreme(functions, arguments, arguments.operands(), false));
      fixed("LIMIT", "MN IN MX", NumericRules::limit);
      fixed("CONCAT_DATE_TOD", "IN1 IN2", (functions, arguments) -> join(functions, arguments));
      fixed("CONCAT_DATE", "YEAR MONTH DAY", (functions, arguments) -> make(functions, arguments, Operation.MAKE_DATE, Elementary.DATE));
      fixed("CONCAT_TOD", "HOUR MINUTE SECOND MILLISECOND", (functions, arguments) ->
          make(functions, arguments, Operation.MAKE_CLOCK, Elementary.TIME_OF_DAY));
      fixed("DAY_OF_WEEK", "IN", (functions, arguments) -> OperatorChecker.elementary(arguments.get(0))
          .filter(type -> type.kind() == Elementary.Kind.DATE)
          .map(type -> functions.typed(Operation.DAY_OF_WEEK, Elementary.INT, arguments.position(), value(arguments.get(0))))
          .orElseGet(() -> functions.refuse(arguments, "a DATE")));
    }

    private static Value value(Operand operand) {
      return ((Operand.Typed) operand).value();
    }

    private static void real(String name, Operation operation) {
      fixed(name, "IN", (functions, arguments) -> {
        Optional<Elementary> type = arguments.get(0) instanceof Operand.Number ? Optional.of(Elementary.LREAL)
            : OperatorChecker.elementary(arguments.get(0)).filter(Elementary::isNumber)
                .flatMap(own -> own.isReal() ? Optional.of(own) : Conversions.common(own, Elementary.REAL));
        return type.map(found -> functions.typed(operation, found, arguments.position(),
            functions.checking.adaptation().to(found, arguments.get(0), "the argument")))
            .orElseGet(() -> functions.refuse(arguments, "REAL or LREAL"));
      });
    }

    private static Operand absolute(StandardFunctions functions, Arguments arguments) {
      if (arguments.get(0) instanceof Operand.Number number) {
        return new Operand.Number(number.value().abs(), number.whole(), number.position());
      }
      return OperatorChecker.elementary(arguments.get(0)).filter(Elementary::isNumber).map(type -> type.isUnsigned() ? arguments.get(0)
          : functions.typed(type.isReal() ? Operation.ABSOLUTE_REAL : Operation.ABSOLUTE_INTEGER, type, arguments.position(),
              value(arguments.get(0)))).orElseGet(() -> functions.refuse(arguments, "a number"));
    }

    private static Operand arcTangent(StandardFunctions functions, Arguments arguments) {
      Optional<Elementary> type = functions.common(arguments.operands()).filter(Elementary::isReal);
      return type.map(found -> functions.typed(Operation.ARC_TANGENT_2, found, arguments.position(),
          functions.checking.adaptation().to(found, arguments.get(0), "Y"), functions.checking.adaptation().to(found, arguments.get(1), "X")))
          .orElseGet(() -> functions.refuse(arguments, "REAL or LREAL"));
    }

    private static void chain(String name, Value.Operator operator, String symbol) {
      extensible(name, "IN1 IN2", (functions, arguments) -> {
        Operand result = arguments.get(0);
        for (int i = 1; i < arguments.operands().size(); i++) {
          result = functions.operators.arithmetic(operator, symbol, result, arguments.get(i), arguments.position());
        }
        return result;
      });
    }

    private static void pair(String name, Value.Operator operator, String symbol) {
      fixed(name, "IN1 IN2", (functions, arguments) ->
          functions.operators.arithmetic(operator, symbol, arguments.get(0), arguments.get(1), arguments.position()));
    }

    private static void connect(String name, Value.Connective connective) {
      extensible(name, "IN1 IN2", (functions, arguments) -> {
        Operand result = arguments.get(0);
        for (int i = 1; i < arguments.operands().size(); i++) {
          result = functions.operators.logic(connective, name, result, arguments.get(i), arguments.position());
        }
        return result;
      });
    }

    private static void relate(String name, Value.Relation relation) {
      extensible(name, "IN1 IN2", (functions, arguments) -> {
        Operand result = functions.operators.compare(relation, name, arguments.get(0), arguments.get(1), arguments.position());
        for (int i = 2; i < arguments.operands().size(); i++) {
          Operand next = functions.operators.compare(relation, name, arguments.get(i - 1), arguments.get(i), arguments.position());
          result = functions.operators.logic(Value.Connective.AND, name, result, next, arguments.position());
        }
        return result;
      });
    }

    private static void shift(String name, Operation operation) {
      fixed(name, "IN N", (functions, arguments) -> {
        Optional<Elementary> bits = OperatorChecker.elementary(arguments.get(0)).filter(type -> type.kind() == Elementary.Kind.BITS);
        boolean count = functions.checking.adaptation().fits(Elementary.LINT, arguments.get(1));
        if (bits.isEmpty() || !count) {
          return functions.refuse(arguments, "a bit string and an integer");
        }
        return functions.typed(operation, bits.get(), arguments.position(), value(arguments.get(0)),
            functions.checking.adaptation().to(Elementary.LINT, arguments.get(1), "N"), new Value.Constant(bits.get().bits(), Elementary.LINT));
      });
    }

    private static Operand select(StandardFunctions functions, Arguments arguments) {
      List<Operand> choices = arguments.operands().subList(1, 3);
      Value selector = functions.checking.adaptation().to(Elementary.BOOL, arguments.get(0), "G");
      return functions.meeting(choices).map(type -> (Operand) new Operand.Typed(selected(functions, type, selector,
          functions.checking.adaptation().to(type, choices.get(0), "IN0"), functions.checking.adaptation().to(type, choices.get(1), "IN1"),
          arguments.position()), arguments.position())).orElseGet(() -> functions.refuse(arguments, "BOOL and two values of one type"));
    }

    private static Value selected(StandardFunctions functions, LogicType type, Value selector, Value ifFalse, Value ifTrue,
        Position position) {
      Operation operation = type instanceof LogicType.StringType ? Operation.SELECT_TEXT
          : type.stored().filter(Elementary::isReal).isPresent() ? Operation.SELECT_REAL : Operation.SELECT_WORD;
      return new Value.Standard(operation, List.of(selector, ifFalse, ifTrue), type, position);
    }

    /** MUX as nested selections; the first one checks the range of K. */
    private static Operand multiplex(StandardFunctions functions, Arguments arguments) {
      List<Operand> choices = arguments.operands().subList(1, arguments.operands().size());
      Optional<LogicType> type = functions.meeting(choices);
      if (type.isEmpty() || !functions.checking.adaptation().fits(Elementary.LINT, arguments.get(0))) {
        return functions.refuse(arguments, "an integer and values of one type");
      }
      Value selector = functions.checking.adaptation().to(Elementary.LINT, arguments.get(0), "K");
      Value checked = new Value.Standard(Operation.MULTIPLEX_CHECK,
          List.of(selector, new Value.Constant(choices.size(), Elementary.LINT)), Elementary.LINT, arguments.position());
      Value result = functions.checking.adaptation().to(type.get(), choices.get(choices.size() - 1), "the last argument");
      for (int i = choices.size() - 2; i >= 0; i--) {
        Value chosen = new Value.Compare(Value.Relation.EQUAL, i == 0 ? checked : selector, new Value.Constant(i, Elementary.LINT));
        result = selected(functions, type.get(), chosen, result,
            functions.checking.adaptation().to(type.get(), choices.get(i), "IN" + i), arguments.position());
      }
      return new Operand.Typed(result, arguments.position());
    }

    private static Operand limit(StandardFunctions functions, Arguments arguments) {
      Operand raised = extreme(functions, arguments, List.of(arguments.get(0), arguments.get(1)), true);
      return raised instanceof Operand.Wrong ? raised : extreme(functions, arguments, List.of(raised, arguments.get(2)), false);
    }

    private static Operand extreme(StandardFunctions functions, Arguments arguments, List<Operand> operands, boolean greatest) {
      Optional<LogicType> type = functions.meeting(operands).filter(found -> !(found instanceof LogicType.EnumerationType));
      if (type.isEmpty()) {
        return functions.refuse(arguments, "ordered values of one type");
      }
      Operation operation = operation(type.get(), greatest);
      Value result = functions.checking.adaptation().to(type.get(), operands.get(0), "the first argument");
      for (Operand operand : operands.subList(1, operands.size())) {
        Value next = functions.checking.adaptation().to(type.get(), operand, "an argument");
        result = new Value.Standard(operation, List.of(result, next), type.get(), arguments.position());
      }
      return new Operand.Typed(result, arguments.position());
    }

    private static Operation operation(LogicType type, boolean greatest) {
      if (type instanceof LogicType.StringType) {
        return greatest ? Operation.MAXIMUM_TEXT : Operation.MINIMUM_TEXT;
      }
      Elementary stored = type.stored().orElseThrow();
      if (stored.isReal()) {
        return greatest ? Operation.MAXIMUM_REAL : Operation.MINIMUM_REAL;
      }
      boolean unsigned = stored.isUnsigned();
      return greatest ? unsigned ? Operation.MAXIMUM_UNSIGNED : Operation.MAXIMUM_SIGNED
          : unsigned ? Operation.MINIMUM_UNSIGNED : Operation.MINIMUM_SIGNED;
    }

    private static Operand join(StandardFunctions functions, Arguments arguments) {
      Optional<Elementary> date = OperatorChecker.elementary(arguments.get(0)).filter(type -> type.kind() == Elementary.Kind.DATE);
      Optional<Elementary> clock = OperatorChecker.elementary(arguments.get(1)).filter(type -> type.kind() == Elementary.Kind.CLOCK);
      if (date.isEmpty() || clock.isEmpty()) {
        return functions.refuse(arguments, "a DATE and a TIME_OF_DAY");
      }
      boolean longer = date.get() == Elementary.LDATE || clock.get() == Elementary.LTIME_OF_DAY;
      return new Operand.Typed(new Value.Arithmetic(Value.Operator.ADD, value(arguments.get(0)), value(arguments.get(1)),
          longer ? Elementary.LDATE_AND_TIME : Elementary.DATE_AND_TIME, arguments.position()), arguments.position());
    }

    private static Operand make(StandardFunctions functions, Arguments arguments, Operation operation, Elementary type) {
      List<Value> values = new ArrayList<>();
      for (Operand operand : arguments.operands()) {
        if (!functions.checking.adaptation().fits(Elementary.LINT, operand)) {
          return functions.refuse(arguments, "integers");
        }
        values.add(functions.checking.adaptation().to(Elementary.LINT, operand, "an argument"));
      }
      return functions.typed(operation, type, arguments.position(), values.toArray(Value[]::new));
    }
  }

  /** Strings. */
  private static final class TextRules {

    private static void define() {
      define("LEN", Operation.LENGTH, "IN", "s");
      define("LEFT", Operation.LEFT, "IN L", "sn");
      define("RIGHT", Operation.RIGHT, "IN L", "sn");
      define("MID", Operation.MIDDLE, "IN L P", "snn");
      define("INSERT", Operation.INSERT, "IN1 IN2 P", "ssn");
      define("DELETE", Operation.DELETE, "IN L P", "snn");
      define("REPLACE", Operation.REPLACE, "IN1 IN2 L P", "ssnn");
      define("FIND", Operation.FIND, "IN1 IN2", "ss");
      extensible("CONCAT", "IN1 IN2", (functions, arguments) -> {
        Operand result = arguments.get(0);
        for (int i = 1; i < arguments.operands().size(); i++) {
          Arguments next = new Arguments(arguments.function(), List.of(result, arguments.get(i)), arguments.position());
          result = apply(functions, next, Operation.CONCATENATE, "ss");
          if (result instanceof Operand.Wrong) {
            return result;
          }
        }
        return result;
      });
    }

    /** {@code shape} has a letter per parameter: s for a string, n for an integer. */
    private static void define(String name, Operation operation, String parameters, String shape) {
      fixed(name, parameters, (functions, arguments) -> apply(functions, arguments, operation, shape));
    }

    private static Operand apply(StandardFunctions functions, Arguments arguments, Operation operation, String shape) {
      boolean wide = text(arguments.get(0)).map(LogicType.StringType::wide).orElse(false);
      LogicType.StringType type = new LogicType.StringType(wide, 65_535);
      List<Value> values = new ArrayList<>();
      for (int i = 0; i < shape.length(); i++) {
        Operand operand = arguments.get(i);
        LogicType wanted = shape.charAt(i) == 's' ? type : Elementary.LINT;
        if (shape.charAt(i) == 's' && text(operand).filter(own -> own.wide() == wide).isEmpty()
            || !functions.checking.adaptation().fits(wanted, operand)) {
          return functions.refuse(arguments, shape.replace("ss", "s").contains("n") ? "strings and integers" : "strings");
        }
        values.add(functions.checking.adaptation().to(wanted, operand, "an argument"));
      }
      LogicType result = operation == Operation.LENGTH || operation == Operation.FIND ? Elementary.INT : type;
      return functions.typed(operation, result, arguments.position(), values.toArray(Value[]::new));
    }

    private static Optional<LogicType.StringType> text(Operand operand) {
      if (operand instanceof Operand.Typed typed) {
        if (typed.type() instanceof LogicType.StringType string) {
          return Optional.of(string);
        }
        boolean character = typed.type() == Elementary.CHAR || typed.type() == Elementary.WCHAR;
        return character ? Optional.of(new LogicType.StringType(typed.type() == Elementary.WCHAR, 1)) : Optional.empty();
      }
      return Optional.empty();
    }
  }
}
