package dev.pawl.logic.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import dev.pawl.logic.code.CodeOptions;
import dev.pawl.logic.code.CodeOptions.BooleanEvaluation;
import dev.pawl.logic.code.CodeOptions.ModuloByZero;
import dev.pawl.logic.code.CodeOptions.Overflow;
import dev.pawl.logic.code.CodeOptions.SmallArithmetic;
import dev.pawl.logic.code.CodeOptions.UnfitReal;
import dev.pawl.logic.code.CodeOptions.WiderBits;
import dev.pawl.logic.runtime.BlockOptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Precedence, integer division, overflow and order of evaluation: IEC 61131-3 tables 29 and 71, from memory. What the
 * standard leaves open is an option, and both ways are tested.
 */
class ArithmeticTest {

  private static final LogicOptions TRAP = options(CodeOptions.DEFAULT.with(Overflow.TRAP));
  private static final LogicOptions ZERO = options(CodeOptions.DEFAULT.with(ModuloByZero.ZERO));
  private static final LogicOptions SHORT = options(CodeOptions.DEFAULT.with(BooleanEvaluation.SHORT_CIRCUIT));
  private static final LogicOptions LIMIT = options(CodeOptions.DEFAULT.with(UnfitReal.LIMIT));
  private static final LogicOptions IN_DINT = options(CodeOptions.DEFAULT.with(SmallArithmetic.DINT));

  private static LogicOptions options(CodeOptions code) {
    return new LogicOptions(code, BlockOptions.DEFAULT, 1000);
  }

  /**
   * Table 71: highest first, brackets, function calls, signs and NOT, **, then * / MOD, + -, < > <= >=, = <>, AND, XOR,
   * OR.
   */
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
      "ULINT | ulint * ulint      | 1                     | overflow: 18446744073709551615 * 18446744073709551615 "
          + "does not "
      + "fit ULINT",
      "INT   | DINT_TO_INT(big)   | -1                    | overflow: 2147483647 lies outside -32768..32767",
      "USINT | INT_TO_USINT(minus7) | 249                 | overflow: -7 lies outside 0..255",
      "TIME  | LINT_TO_TIME(huge / 1000) | -808000         | overflow: 9223372036854775 * 1000000 does not fit 64 bits",
      "TIME  | t * huge           | -1500000000           | overflow: 1500000000 * 9223372036854775807 does not fit "
          + "64 bits",
      "LTIME | LINT_TO_LTIME(huge) + t | -9223372035354775809 | overflow: 9223372036854775807 + 1500000000 does not "
          + "fit 64 bits"
  })
  void overflowWrapsOrTrapsByOption(String type, String expression, String wrapped, String message) {
    assertThat(Evaluation.of(type, expression)).isEqualTo(wrapped);
    assertThat(Evaluation.error(type, expression, TRAP)).isEqualTo(message);
  }

  /**
   * Controllers give many different numbers here (common practice, no source), so that the usual way is to give none.
   */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "INT   | REAL_TO_INT(r * 40000.0)    | 32767                | overflow: 100000.0 lies outside -32768..32767",
      "INT   | REAL_TO_INT(REAL#32767.5)   | 32767                | overflow: 32767.5 lies outside -32768..32767",
      "USINT | REAL_TO_USINT(-r)           | 0                    | overflow: -2.5 lies outside 0..255",
      "SINT  | LREAL_TRUNC_SINT(l * -1.0E4) | -128                | overflow: -1000.0 lies outside -128..127",
      "INT   | LREAL_TO_INT(l * 1.0E21)    | 32767                | overflow: 1.0E20 lies outside -32768..32767",
      "LINT  | LREAL_TO_LINT(l * 1.0E20)   | 9223372036854775807  | overflow: 1.0E19 lies outside "
      + "-9223372036854775808..9223372036854775807",
      "ULINT | LREAL_TO_ULINT(l * 1.0E21)  | 18446744073709551615 | overflow: 1.0E20 does not fit ULINT",
      "ULINT | LREAL_TO_ULINT(-l * 10.0)   | 0                    | overflow: -1.0 does not fit ULINT",
      "INT   | REAL_TO_INT(r / INT_TO_REAL(zero)) | 32767         | overflow: Infinity lies outside -32768..32767",
      "INT   | REAL_TO_INT(SQRT(-r))       | 0                    | overflow: NaN lies outside -32768..32767",
      "TIME  | t * (l * 1.0E12)            | 9223372036854775807  | overflow: 1.5E20 lies outside "
      + "-9223372036854775808..9223372036854775807",
      "TIME  | LREAL_TO_TIME(l * 1.0E15)   | 9223372036854775807  | overflow: 1.0E20 lies outside "
      + "-9223372036854775808..9223372036854775807"
  })
  void realsThatDoNotFitAreErrorsOrLimitedByOption(String type, String expression, String limited, String message) {
    assertThat(Evaluation.of(type, expression, LIMIT)).isEqualTo(limited);
    assertThat(Evaluation.error(type, expression, LogicOptions.DEFAULT)).isEqualTo(message);
    assertThat(Evaluation.error(type, expression, TRAP)).isEqualTo(message);
  }

  @Test
  void realsThatFitAreRoundedWhatEverTheOption() {
    for (LogicOptions options : new LogicOptions[] {LogicOptions.DEFAULT, LIMIT}) {
      assertThat(Evaluation.of("INT", "REAL_TO_INT(r * 13106.8)", options)).isEqualTo("32767");
      assertThat(Evaluation.of("USINT", "LREAL_TO_USINT(-l)", options)).isEqualTo("0");
      assertThat(Evaluation.of("ULINT", "LREAL_TO_ULINT(l * 1.0E20)", options)).isEqualTo("10000000000000000000");
    }
  }

  /**
   * The standard computes in the type of the operands (from memory). Controllers that compute in 32 bits give the other
   * result (common practice, no source); what is kept has to fit its type there too.
   */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "LINT  | i100 + 100                | -56   | 200",
      "LINT  | i100 * i100 - i100        | -84   | 9900",
      "SINT  | (i100 + i100) / 2         | -28   | 100",
      "SINT  | i100 + i100               | -56   | -56",
      "INT   | u200 + u200               | 144   | 400",
      "INT   | u200 - 255                | 201   | -55",
      "REAL  | INT_TO_REAL(seven * 10000) | 4464.0 | 70000.0",
      "BOOL  | i100 + i100 > 120         | FALSE | TRUE",
      "INT   | seven * (u200 + u200)     | 1008  | 2800",
      "LINT  | big + 1                   | -2147483648 | -2147483648"
  })
  void smallIntegersAreComputedInTheirOwnTypeOrInDintByOption(String type, String expression, String own, String dint) {
    assertThat(Evaluation.of(type, expression)).isEqualTo(own);
    assertThat(Evaluation.of(type, expression, IN_DINT)).isEqualTo(dint);
  }

  @Test
  void whatIsKeptOfSmallIntegersHasToFitWhereOverflowIsAnError() {
    LogicOptions trapped = options(CodeOptions.DEFAULT.with(Overflow.TRAP).with(SmallArithmetic.DINT));
    assertThat(Evaluation.of("LINT", "i100 + 100", trapped)).isEqualTo("200");
    assertThat(Evaluation.error("SINT", "i100 + i100", trapped)).isEqualTo("overflow: 200 lies outside -128..127");
    assertThat(Evaluation.error("LINT", "i100 + 100", TRAP)).isEqualTo("overflow: 200 lies outside -128..127");
  }

  /**
   * A sign that is carried on is common practice, no source; zeros are the standard's transfer of bits, from memory.
   */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "DWORD | INT_TO_DWORD(minus7)      | 4294967289           | 65529",
      "LWORD | DINT_TO_LWORD(least)      | 18446744071562067968 | 2147483648",
      "WORD  | SINT_TO_WORD(SINT#-1)     | 65535                | 255",
      "WORD  | INT_TO_WORD(minus7)       | 65529                | 65529",
      "BYTE  | INT_TO_BYTE(minus7)       | 249                  | 249",
      "DWORD | INT_TO_DWORD(seven)       | 7                    | 7",
      "DWORD | UINT_TO_DWORD(UINT#65535) | 65535                | 65535"
  })
  void widerBitsAreFilledWithTheSignOrWithZerosByOption(String type, String expression, String sign, String zeros) {
    assertThat(Evaluation.of(type, expression)).isEqualTo(sign);
    assertThat(Evaluation.of(type, expression, options(CodeOptions.DEFAULT.with(WiderBits.ZERO)))).isEqualTo(zeros);
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
