package dev.pawl.logic.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import dev.pawl.logic.code.CodeOptions;
import dev.pawl.logic.code.CodeOptions.BooleanEvaluation;
import dev.pawl.logic.code.CodeOptions.ModuloByZero;
import dev.pawl.logic.code.CodeOptions.Overflow;
import dev.pawl.logic.runtime.BlockOptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Precedence, integer division, overflow and order of evaluation: IEC 61131-3 tables 29 and 71, from memory. What the standard
 * leaves open is an option, and both ways are tested.
 */
class ArithmeticTest {

  private static final LogicOptions TRAP = options(Overflow.TRAP, BooleanEvaluation.FULL, ModuloByZero.FAULT);
  private static final LogicOptions ZERO = options(Overflow.WRAP, BooleanEvaluation.FULL, ModuloByZero.ZERO);
  private static final LogicOptions SHORT = options(Overflow.WRAP, BooleanEvaluation.SHORT_CIRCUIT, ModuloByZero.FAULT);

  private static LogicOptions options(Overflow overflow, BooleanEvaluation evaluation, ModuloByZero modulo) {
    return new LogicOptions(new CodeOptions(overflow, evaluation, modulo), BlockOptions.DEFAULT, 1000);
  }

  /** Table 71: highest first, brackets, function calls, signs and NOT, **, then * / MOD, + -, < > <= >=, = <>, AND, XOR, OR. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "DINT | seven + two * 3                   | 13",
      "DINT | (seven + two) * 3                 | 27",
      "DINT | seven - two - one                 | 4",
      "DINT | 64 / two / two                    | 16",
      "DINT | seven MOD 4 * two                 | 6",
      "LREAL | -l ** 2.0                        | 0.010000000000000002",
      "LREAL | 2.0 ** 3.0 ** 2.0                | 64.0",
      "BOOL | seven > two = yes                 | TRUE",
      "BOOL | yes = seven > two                 | TRUE",
      "BOOL | yes OR no AND no                  | TRUE",
      "BOOL | (yes OR no) AND no                | FALSE",
      "BOOL | yes OR yes XOR yes                | TRUE",
      "BOOL | yes XOR yes AND no                | TRUE",
      "BOOL | NOT no AND no                     | FALSE",
      "BOOL | NOT (no AND no)                   | TRUE",
      "BOOL | one + one = two AND seven <> two  | TRUE",
      "BOOL | yes & no                          | FALSE"
  })
  void precedence(String type, String expression, String value) {
    assertThat(Evaluation.of(type, expression)).isEqualTo(value);
  }

  /** Integer division truncates towards zero; the remainder has the sign of the dividend. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "seven / two      | 3", "minus7 / two      | -3", "seven / (-two)      | -3", "minus7 / (-two)      | 3",
      "seven MOD two    | 1", "minus7 MOD two    | -1", "seven MOD (-two)    | 1", "minus7 MOD (-two)    | -1"
  })
  void divisionOfNegatives(String expression, String value) {
    assertThat(Evaluation.of("INT", expression)).isEqualTo(value);
    assertThat(Evaluation.of("INT", expression.replace("seven", "7").replace("minus7", "(-7)").replace("two", "2")))
        .isEqualTo(value);
  }

  @ParameterizedTest
  @CsvSource({"INT, seven / zero", "INT, seven MOD zero", "LINT, huge / zero", "TIME, t / zero"})
  void divisionByZeroIsAnErrorAtItsLine(String type, String expression) {
    assertThat(Evaluation.error(type, expression, LogicOptions.DEFAULT)).isEqualTo("division by zero");
  }

  /** The definition of MOD in the standard, from memory: IF IN2 = 0 THEN OUT := 0. */
  @Test
  void moduloByZeroIsZeroByOption() {
    assertThat(Evaluation.of("INT", "seven MOD zero", ZERO)).isEqualTo("0");
    assertThat(Evaluation.of("INT", "minus7 MOD two", ZERO)).isEqualTo("-1");
  }

  /** IEC 60559: division of reals by zero gives an infinity. */
  @Test
  void divisionOfRealsByZeroIsInfinite() {
    assertThat(Evaluation.of("LREAL", "l / INT_TO_LREAL(zero)")).isEqualTo("Infinity");
    assertThat(Evaluation.of("BOOL", "IS_VALID(l / INT_TO_LREAL(zero))")).isEqualTo("FALSE");
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "SINT  | i100 + i100        | -56                   | overflow: 200 lies outside -128..127",
      "SINT  | i100 * i100        | 16                    | overflow: 10000 lies outside -128..127",
      "USINT | u200 + u200        | 144                   | overflow: 400 lies outside 0..255",
      "USINT | u200 - u200 - u200 | 56                    | overflow: -200 lies outside 0..255",
      "DINT  | big + 1            | -2147483648           | overflow: 2147483648 lies outside -2147483648..2147483647",
      "DINT  | -least             | -2147483648           | overflow: 2147483648 lies outside -2147483648..2147483647",
      "DINT  | ABS(least)         | -2147483648           | overflow: 2147483648 lies outside -2147483648..2147483647",
      "DINT  | least / (-one)     | -2147483648           | overflow: 2147483648 lies outside -2147483648..2147483647",
      "LINT  | huge + 1           | -9223372036854775808  | overflow: 9223372036854775807 + 1 does not fit 64 bits",
      "LINT  | huge * 2           | -2                    | overflow: 9223372036854775807 * 2 does not fit 64 bits",
      "LINT  | -huge - 2          | 9223372036854775807   | overflow: -9223372036854775807 - 2 does not fit 64 bits",
      "ULINT | ulint + 1          | 0                     | overflow: 18446744073709551615 + 1 does not fit ULINT",
      "ULINT | ulint * ulint      | 1                     | overflow: 18446744073709551615 * 18446744073709551615 does not "
      + "fit ULINT",
      "INT   | DINT_TO_INT(big)   | -1                    | overflow: 2147483647 lies outside -32768..32767",
      "USINT | INT_TO_USINT(minus7) | 249                 | overflow: -7 lies outside 0..255",
      "INT   | REAL_TO_INT(r * 40000.0) | -31072           | overflow: 100000 lies outside -32768..32767"
  })
  void overflowWrapsOrTrapsByOption(String type, String expression, String wrapped, String message) {
    assertThat(Evaluation.of(type, expression)).isEqualTo(wrapped);
    assertThat(Evaluation.error(type, expression, TRAP)).isEqualTo(message);
  }

  @Test
  void unsignedNumbersOf64BitsDivideAndCompareUnsigned() {
    assertThat(Evaluation.of("ULINT", "ulint / 2")).isEqualTo("9223372036854775807");
    assertThat(Evaluation.of("ULINT", "ulint MOD 10")).isEqualTo("5");
    assertThat(Evaluation.of("BOOL", "ulint > 1")).isEqualTo("TRUE");
    assertThat(Evaluation.of("LREAL", "ULINT_TO_LREAL(ulint)")).isEqualTo("1.8446744073709552E19");
  }

  /** REAL is single precision: 0.1 + 0.2 in binary32 is 0.3 rounded up (IEC 60559, by Java's float). */
  @Test
  void realIsRoundedToSinglePrecisionAfterEachOperation() {
    ScanMachine machine = TestMachine.of("PROGRAM P VAR a : REAL := 0.1; b : REAL := 0.2; c : REAL; d : LREAL; END_VAR "
        + "c := a + b; d := a; END_PROGRAM");
    assertThat(machine.scan(0)).isEmpty();
    assertThat((float) machine.real("c")).isEqualTo(0.1f + 0.2f);
    assertThat(machine.real("d")).isEqualTo(0.1f);
  }

  private static final String COUNTING = """
      VAR_GLOBAL calls : DINT; END_VAR
      FUNCTION Noted : BOOL VAR_INPUT v : BOOL; digit : DINT; END_VAR
        calls := calls * 10 + digit; Noted := v;
      END_FUNCTION
      PROGRAM P VAR result : BOOL; f : BOOL; y : BOOL := TRUE; a : ARRAY[1..3] OF DINT; i : INT := 9; END_VAR
        result := %s;
      END_PROGRAM
      """;

  /** The standard allows both: "Boolean expressions may be evaluated only to the extent necessary", from memory. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "Noted(f, 1) AND Noted(y, 2)                    | 12  | 1",
      "Noted(y, 1) OR Noted(y, 2)                     | 12  | 1",
      "Noted(y, 1) AND Noted(y, 2)                    | 12  | 12",
      "Noted(f, 1) OR Noted(f, 2) OR Noted(y, 3)      | 123 | 123",
      "Noted(f, 1) XOR Noted(y, 2)                    | 12  | 12",
      "Noted(y, 1) OR Noted(f, 2) AND Noted(f, 3)     | 123 | 1"
  })
  void operandsAreEvaluatedFromLeftToRight(String expression, long full, long necessary) {
    ScanMachine both = TestMachine.of(COUNTING.formatted(expression));
    assertThat(both.scan(0)).isEmpty();
    assertThat(both.word("calls")).isEqualTo(full);
    ScanMachine few = TestMachine.of(COUNTING.formatted(expression), SHORT);
    assertThat(few.scan(0)).isEmpty();
    assertThat(few.word("calls")).isEqualTo(necessary);
    assertThat(few.truth("result")).isEqualTo(both.truth("result"));
  }

  @Test
  void aGuardedIndexFailsWhereBothOperandsAreEvaluated() {
    String guarded = COUNTING.formatted("i <= 3 AND a[i] = 0");
    assertThat(TestMachine.of(guarded).scan(0)).get().hasToString("test.st:6: the index 9 lies outside 1..3 (scan 1)");
    assertThat(TestMachine.of(guarded, SHORT).scan(0)).isEmpty();
  }
}
