package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.check.StandardFunctions.Arguments;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Selection, and dates made of parts. */
final class SelectionRules {

  private SelectionRules() {}

  static void define() {
    StandardFunctions.fixed("SEL", "G IN0 IN1", SelectionRules::select);
    StandardFunctions.extensible("MUX", "K IN0 IN1", SelectionRules::multiplex);
    StandardFunctions.extensible("MAX", "IN1 IN2", (functions, arguments) ->
        extreme(functions, arguments, arguments.operands(), true));
    StandardFunctions.extensible("MIN", "IN1 IN2", (functions, arguments) ->
        extreme(functions, arguments, arguments.operands(), false));
    StandardFunctions.fixed("LIMIT", "MN IN MX", SelectionRules::limit);
    StandardFunctions.fixed("CONCAT_DATE_TOD", "IN1 IN2", (functions, arguments) -> join(functions, arguments));
    StandardFunctions.fixed("CONCAT_DATE", "YEAR MONTH DAY", (functions, arguments) ->
        make(functions, arguments, Operation.MAKE_DATE, Elementary.DATE));
    StandardFunctions.fixed("CONCAT_TOD", "HOUR MINUTE SECOND MILLISECOND", (functions, arguments) ->
        make(functions, arguments, Operation.MAKE_CLOCK, Elementary.TIME_OF_DAY));
    StandardFunctions.fixed("DAY_OF_WEEK", "IN", (functions, arguments) -> OperatorChecker.elementary(arguments.get(0))
        .filter(type -> type.kind() == Elementary.Kind.DATE)
        .map(type -> functions.typed(Operation.DAY_OF_WEEK, Elementary.INT, arguments.position(),
            value(arguments.get(0))))
        .orElseGet(() -> functions.refuse(arguments, "a DATE")));
  }

  private static Value value(Operand operand) {
    return ((Operand.Typed) operand).value();
  }

  private static Operand select(StandardFunctions functions, Arguments arguments) {
    List<Operand> choices = arguments.operands().subList(1, 3);
    Value selector = functions.adapted(Elementary.BOOL, arguments.get(0), "G");
    return functions.meeting(choices).map(type -> (Operand) new Operand.Typed(selected(functions, type, selector,
        functions.adapted(type, choices.get(0), "IN0"), functions.adapted(type, choices.get(1), "IN1"),
        arguments.position()), arguments.position()))
        .orElseGet(() -> functions.refuse(arguments, "BOOL and two values of one type"));
  }

  private static Value selected(StandardFunctions functions, LogicType type, Value selector, Value ifFalse,
      Value ifTrue, Position position) {
    Operation operation = type instanceof LogicType.StringType ? Operation.SELECT_TEXT
        : type.stored().filter(Elementary::isReal).isPresent() ? Operation.SELECT_REAL : Operation.SELECT_WORD;
    return new Value.Standard(operation, List.of(selector, ifFalse, ifTrue), type, position);
  }

  /** MUX as nested selections; the first one checks the range of K. */
  private static Operand multiplex(StandardFunctions functions, Arguments arguments) {
    List<Operand> choices = arguments.operands().subList(1, arguments.operands().size());
    Optional<LogicType> type = functions.meeting(choices);
    if (type.isEmpty() || !functions.fits(Elementary.LINT, arguments.get(0))) {
      return functions.refuse(arguments, "an integer and values of one type");
    }
    Value selector = functions.adapted(Elementary.LINT, arguments.get(0), "K");
    Value checked = new Value.Standard(Operation.MULTIPLEX_CHECK,
        List.of(selector, new Value.Constant(choices.size(), Elementary.LINT)), Elementary.LINT, arguments.position());
    Value result = functions.adapted(type.get(), choices.get(choices.size() - 1), "the last argument");
    for (int i = choices.size() - 2; i >= 0; i--) {
      Value chosen = new Value.Compare(Value.Relation.EQUAL, i == 0 ? checked
          : selector, new Value.Constant(i, Elementary.LINT));
      result = selected(functions, type.get(), chosen, result,
          functions.adapted(type.get(), choices.get(i), "IN" + i), arguments.position());
    }
    return new Operand.Typed(result, arguments.position());
  }

  private static Operand limit(StandardFunctions functions, Arguments arguments) {
    Operand raised = extreme(functions, arguments, List.of(arguments.get(0), arguments.get(1)), true);
    return raised.isWrong() ? raised : extreme(functions, arguments, List.of(raised, arguments.get(2)),
        false);
  }

  private static Operand extreme(StandardFunctions functions, Arguments arguments, List<Operand> operands,
      boolean greatest) {
    Optional<LogicType> type = functions.meeting(operands).filter(found ->
        !(found instanceof LogicType.EnumerationType));
    if (type.isEmpty()) {
      return functions.refuse(arguments, "ordered values of one type");
    }
    Operation operation = operation(type.get(), greatest);
    Value result = functions.adapted(type.get(), operands.get(0), "the first argument");
    for (Operand operand : operands.subList(1, operands.size())) {
      Value next = functions.adapted(type.get(), operand, "an argument");
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
    Optional<Elementary> date = OperatorChecker.elementary(arguments.get(0))
        .filter(type -> type.kind() == Elementary.Kind.DATE);
    Optional<Elementary> clock = OperatorChecker.elementary(arguments.get(1))
        .filter(type -> type.kind() == Elementary.Kind.CLOCK);
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
      if (!functions.fits(Elementary.LINT, operand)) {
        return functions.refuse(arguments, "integers");
      }
      values.add(functions.adapted(Elementary.LINT, operand, "an argument"));
    }
    return functions.typed(operation, type, arguments.position(), values.toArray(Value[]::new));
  }
}
