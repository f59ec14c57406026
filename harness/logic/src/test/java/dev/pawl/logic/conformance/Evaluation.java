package dev.pawl.logic.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.LogicError;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.Optional;

/** One expression, evaluated as the right side of an assignment in a program of its own. */
final class Evaluation {

  private Evaluation() {}

  /** The value as text: numbers in decimal, truth values as TRUE or FALSE, strings as they are. */
  static String of(String type, String expression, LogicOptions options) {
    ScanMachine machine = machine(type, expression, options);
    assertThat(machine.scan(0)).isEmpty();
    return shown(machine, type);
  }

  static String of(String type, String expression) {
    return of(type, expression, LogicOptions.DEFAULT);
  }

  /** The message of the run-time error that evaluating it ends in. */
  static String error(String type, String expression, LogicOptions options) {
    Optional<LogicError> error = machine(type, expression, options).scan(0);
    assertThat(error).as(expression).isPresent();
    assertThat(error.get().place().line()).isEqualTo(6);
    return error.get().message();
  }

  /** Variables of every type stand ready, since operations on literals alone are computed by the compiler. */
  private static ScanMachine machine(String type, String expression, LogicOptions options) {
    return TestMachine.of("PROGRAM P VAR result : " + type + "; END_VAR\n"
        + "VAR zero : INT; minus7 : INT := -7; seven : INT := 7; two : INT := 2; i100 : SINT := 100; u200 : USINT := "
        + "200; "
        + "END_VAR\n"
        + "VAR big : DINT := 2147483647; least : DINT := -2147483648; huge : LINT := 9223372036854775807; one : INT "
        + ":= 1; "
        + "END_VAR\n"
        + "VAR yes : BOOL := TRUE; no : BOOL; w : WORD := 16#8001; b : BYTE := 16#F0; r : REAL := 2.5; l : LREAL := "
        + "0.1; "
        + "END_VAR\n"
        + "VAR s : STRING := 'ABCDE'; e : STRING; t : TIME := T#1500ms; ulint : ULINT := 18446744073709551615; "
        + "END_VAR\n"
        + "result := " + expression + ";\nEND_PROGRAM\n", options);
  }

  private static String shown(ScanMachine machine, String type) {
    if (type.startsWith("STRING") || type.startsWith("WSTRING")) {
      return machine.text("result");
    }
    return switch (type) {
      case "BOOL" -> machine.truth("result") ? "TRUE" : "FALSE";
      case "REAL", "LREAL" -> Double.toString(machine.real("result"));
      case "ULINT", "LWORD" -> Long.toUnsignedString(machine.word("result"));
      default -> Long.toString(machine.word("result"));
    };
  }
}
