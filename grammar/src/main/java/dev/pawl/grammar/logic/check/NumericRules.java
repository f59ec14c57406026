package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.check.StandardFunctions.Arguments;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Value;
import java.util.List;
import java.util.Optional;

/** Numbers and bits. */
final class NumericRules {

  private NumericRules() {}

  static void define() {
    StandardFunctions.fixed("ABS", "IN", NumericRules::absolute);
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
    StandardFunctions.fixed("ATAN2", "Y X", NumericRules::arcTangent);
    StandardFunctions.fixed("IS_VALID", "IN", (functions, arguments) -> functions.common(arguments.operands())
        .filter(Elementary::isReal)
        .map(type -> functions.typed(Operation.IS_VALID, Elementary.BOOL, arguments.position(),
            functions.adapted(type, arguments.get(0), "the argument")))
        .orElseGet(() -> functions.refuse(arguments, "REAL or LREAL")));
    chain("ADD", Value.Operator.ADD, "+");
    chain("MUL", Value.Operator.MULTIPLY, "*");
    pair("SUB", Value.Operator.SUBTRACT, "-");
    pair("DIV", Value.Operator.DIVIDE, "/");
    pair("MOD", Value.Operator.MODULO, "MOD");
    for (String name : List.of("ADD_TIME", "ADD_TOD_TIME", "ADD_DT_TIME", "ADD_LTIME", "ADD_LTOD_LTIME",
        "ADD_LDT_LTIME")) {
      pair(name, Value.Operator.ADD, "+");
    }
    for (String name : List.of("SUB_TIME", "SUB_DATE_DATE", "SUB_TOD_TIME", "SUB_TOD_TOD", "SUB_DT_TIME", "SUB_DT_DT",
        "SUB_LTIME")) {
      pair(name, Value.Operator.SUBTRACT, "-");
    }
    for (String name : List.of("MUL_TIME", "MULTIME", "MUL_LTIME")) {
      pair(name, Value.Operator.MULTIPLY, "*");
    }
    for (String name : List.of("DIV_TIME", "DIVTIME", "DIV_LTIME")) {
      pair(name, Value.Operator.DIVIDE, "/");
    }
    StandardFunctions.fixed("EXPT", "IN1 IN2", (functions, arguments) ->
        functions.operators().power(arguments.get(0), arguments.get(1), arguments.position(),
            functions.wanted()));
    StandardFunctions.fixed("MOVE", "IN", (functions, arguments) -> arguments.get(0));
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
    StandardFunctions.fixed("NE", "IN1 IN2", (functions, arguments) ->
        functions.operators().compare(Value.Relation.NOT_EQUAL, "NE", arguments.get(0), arguments.get(1),
            arguments.position()));
  }

  private static Value value(Operand operand) {
    return ((Operand.Typed) operand).value();
  }

  private static void real(String name, Operation operation) {
    StandardFunctions.fixed(name, "IN", (functions, arguments) -> {
      Optional<Elementary> type = arguments.get(0) instanceof Operand.Number
          ? Optional.of(OperatorChecker.real(functions.wanted()))
          : OperatorChecker.elementary(arguments.get(0)).filter(Elementary::isNumber)
              .flatMap(own -> own.isReal() ? Optional.of(own) : Conversions.common(own, Elementary.REAL));
      return type.map(found -> functions.typed(operation, found, arguments.position(),
          functions.adapted(found, arguments.get(0), "the argument")))
          .orElseGet(() -> functions.refuse(arguments, "REAL or LREAL"));
    });
  }

  private static Operand absolute(StandardFunctions functions, Arguments arguments) {
    if (arguments.get(0) instanceof Operand.Number number) {
      return new Operand.Number(number.value().abs(), number.whole(), number.position());
    }
    return OperatorChecker.elementary(arguments.get(0)).filter(Elementary::isNumber)
        .map(type -> type.isUnsigned() ? arguments.get(0)
        : functions.typed(type.isReal() ? Operation.ABSOLUTE_REAL : Operation.ABSOLUTE_INTEGER, type,
            arguments.position(), value(arguments.get(0)))).orElseGet(() -> functions.refuse(arguments, "a number"));
  }

  private static Operand arcTangent(StandardFunctions functions, Arguments arguments) {
    Optional<Elementary> type = functions.common(arguments.operands()).filter(Elementary::isReal);
    return type.map(found -> functions.typed(Operation.ARC_TANGENT_2, found, arguments.position(),
        functions.adapted(found, arguments.get(0), "Y"), functions.adapted(found, arguments.get(1), "X")))
        .orElseGet(() -> functions.refuse(arguments, "REAL or LREAL"));
  }

  private static void chain(String name, Value.Operator operator, String symbol) {
    StandardFunctions.extensible(name, "IN1 IN2", (functions, arguments) -> {
      Operand result = arguments.get(0);
      for (int i = 1; i < arguments.operands().size(); i++) {
        result = functions.operators().arithmetic(operator, symbol, result, arguments.get(i), arguments.position());
      }
      return result;
    });
  }

  private static void pair(String name, Value.Operator operator, String symbol) {
    StandardFunctions.fixed(name, "IN1 IN2", (functions, arguments) ->
        functions.operators().arithmetic(operator, symbol, arguments.get(0), arguments.get(1), arguments.position()));
  }

  private static void connect(String name, Value.Connective connective) {
    StandardFunctions.extensible(name, "IN1 IN2", (functions, arguments) -> {
      Operand result = arguments.get(0);
      for (int i = 1; i < arguments.operands().size(); i++) {
        result = functions.operators().logic(connective, name, result, arguments.get(i), arguments.position());
      }
      return result;
    });
  }

  private static void relate(String name, Value.Relation relation) {
    StandardFunctions.extensible(name, "IN1 IN2", (functions, arguments) -> {
      Operand result = functions.operators().compare(relation, name, arguments.get(0), arguments.get(1),
          arguments.position());
      for (int i = 2; i < arguments.operands().size(); i++) {
        Operand next = functions.operators().compare(relation, name, arguments.get(i - 1), arguments.get(i),
            arguments.position());
        result = functions.operators().logic(Value.Connective.AND, name, result, next, arguments.position());
      }
      return result;
    });
  }

  private static void shift(String name, Operation operation) {
    StandardFunctions.fixed(name, "IN N", (functions, arguments) -> {
      Optional<Elementary> bits = OperatorChecker.elementary(arguments.get(0))
          .filter(type -> type.kind() == Elementary.Kind.BITS);
      boolean count = functions.fits(Elementary.LINT, arguments.get(1));
      if (bits.isEmpty() || !count) {
        return functions.refuse(arguments, "a bit string and an integer");
      }
      return functions.typed(operation, bits.get(), arguments.position(), value(arguments.get(0)),
          functions.adapted(Elementary.LINT, arguments.get(1), "N"),
              new Value.Constant(bits.get().bits(), Elementary.LINT));
    });
  }
}
