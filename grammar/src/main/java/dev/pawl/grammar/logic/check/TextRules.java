package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.check.StandardFunctions.Arguments;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Value;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Strings. */
final class TextRules {

  private TextRules() {}

  static void define() {
    define("LEN", Operation.LENGTH, "IN", "s");
    define("LEFT", Operation.LEFT, "IN L", "sn");
    define("RIGHT", Operation.RIGHT, "IN L", "sn");
    define("MID", Operation.MIDDLE, "IN L P", "snn");
    define("INSERT", Operation.INSERT, "IN1 IN2 P", "ssn");
    define("DELETE", Operation.DELETE, "IN L P", "snn");
    define("REPLACE", Operation.REPLACE, "IN1 IN2 L P", "ssnn");
    define("FIND", Operation.FIND, "IN1 IN2", "ss");
    StandardFunctions.extensible("CONCAT", "IN1 IN2", (functions, arguments) -> {
      Operand result = arguments.get(0);
      for (int i = 1; i < arguments.operands().size(); i++) {
        Arguments next = new Arguments(arguments.function(), List.of(result, arguments.get(i)), arguments.position());
        result = apply(functions, next, Operation.CONCATENATE, "ss");
        if (result.isWrong()) {
          return result;
        }
      }
      return result;
    });
  }

  /** {@code shape} has a letter per parameter: s for a string, n for an integer. */
  private static void define(String name, Operation operation, String parameters, String shape) {
    StandardFunctions.fixed(name, parameters, (functions, arguments) -> apply(functions, arguments, operation, shape));
  }

  private static Operand apply(StandardFunctions functions, Arguments arguments, Operation operation, String shape) {
    boolean wide = text(arguments.get(0)).map(LogicType.StringType::wide).orElse(false);
    LogicType.StringType type = new LogicType.StringType(wide, 65_535);
    List<Value> values = new ArrayList<>();
    for (int i = 0; i < shape.length(); i++) {
      Operand operand = arguments.get(i);
      LogicType wanted = shape.charAt(i) == 's' ? type : Elementary.LINT;
      if (shape.charAt(i) == 's' && text(operand).filter(own -> own.wide() == wide).isEmpty()
          || !functions.fits(wanted, operand)) {
        return functions.refuse(arguments, shape.replace("ss", "s").contains("n") ? "strings and integers" : "strings");
      }
      values.add(functions.adapted(wanted, operand, "an argument"));
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
