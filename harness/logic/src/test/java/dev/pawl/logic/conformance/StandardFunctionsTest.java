package dev.pawl.logic.conformance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.runtime.StandardLibrary;
import dev.pawl.logic.runtime.TextLibrary;
import dev.pawl.logic.runtime.TimeLibrary;
import java.lang.reflect.Method;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The standard functions: IEC 61131-3 tables 22 to 36, from memory. Examples marked "example" are the standard's own,
 * from memory; values of numeric functions are mathematics (rounded to double precision by hand), the others are worked
 * out from the definitions.
 */
class StandardFunctionsTest {

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "INT   | ABS(minus7)                     | 7",
      "LREAL | ABS(-l)                         | 0.1",
      "LREAL | SQRT(LREAL#2.25)                | 1.5",
      "REAL  | SQRT(r * r)                     | 2.5",
      "LREAL | LN(LREAL#1.0)                   | 0.0",
      "LREAL | LOG(LREAL#1000.0)               | 2.9999999999999996",
      "LREAL | EXP(LREAL#0.0)                  | 1.0",
      "LREAL | SIN(LREAL#0.5235987755982989)   | 0.5",
      "LREAL | COS(LREAL#0.0)                  | 1.0",
      "LREAL | TAN(LREAL#0.0)                  | 0.0",
      "LREAL | ASIN(LREAL#1.0)                 | 1.5707963267948966",
      "LREAL | ACOS(LREAL#1.0)                 | 0.0",
      "LREAL | ATAN(LREAL#1.0)                 | 0.7853981633974483",
      "LREAL | ATAN2(LREAL#1.0, LREAL#-1.0)    | 2.356194490192345",
      "LREAL | EXPT(LREAL#2.0, 10)             | 1024.0",
      "REAL  | r ** two                        | 6.25",
      "INT   | ADD(seven, two, one)            | 10",
      "INT   | MUL(seven, two, 3)              | 42",
      "INT   | SUB(seven, two)                 | 5",
      "INT   | DIV(seven, two)                 | 3",
      "INT   | MOD(seven, two)                 | 1",
      "INT   | MOVE(seven)                     | 7"
  })
  void numbers(String type, String expression, String value) {
    assertThat(Double.parseDouble(Evaluation.of(type, expression))).isCloseTo(Double.parseDouble(value),
        offset(1e-15 * Math.max(1, Math.abs(Double.parseDouble(value)))));
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "WORD | SHL(w, 1)               | 2",
      "WORD | SHL(IN := w, N := 4)    | 16",
      "WORD | SHR(w, 15)              | 1",
      "WORD | SHR(w, 16)              | 0",
      "WORD | SHL(w, 100)             | 0",
      "WORD | ROL(w, 1)               | 3",
      "WORD | ROR(w, 1)               | 49152",
      "WORD | ROL(w, 16)              | 32769",
      "BYTE | ROR(b, 4)               | 15",
      "WORD | NOT w                   | 32766",
      "BYTE | b AND 16#3C             | 48",
      "BYTE | b OR 16#0F              | 255",
      "BYTE | b XOR 16#FF             | 15",
      "BYTE | AND(b, 16#3C, 16#20)    | 32",
      "BOOL | w.%X15                  | TRUE",
      "BOOL | w.1                     | FALSE",
      "BYTE | w.%B1                   | 128",
      "WORD | b                       | 240"
  })
  void bits(String type, String expression, String value) {
    assertThat(Evaluation.of(type, expression)).isEqualTo(value);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {
      "INT    | SEL(no, two, seven)                          | 2",
      "INT    | SEL(G := yes, IN0 := two, IN1 := seven)      | 7",
      "STRING | SEL(yes, 'a', 'b')                           | b",
      "INT    | MAX(two, seven, minus7)                      | 7",
      "INT    | MIN(two, seven, minus7)                      | -7",
      "REAL   | MAX(r, 3.5)                                  | 3.5",
      "STRING | MAX('b', 'a')                                | b",
      "INT    | LIMIT(MN := 0, IN := seven, MX := 5)         | 5",
      "INT    | LIMIT(0, minus7, 5)                          | 0",
      "INT    | LIMIT(0, two, 5)                             | 2",
      "INT    | MUX(0, two, seven, one)                      | 2",
      "INT    | MUX(K := two, IN0 := 5, IN1 := 6, IN2 := 9)  | 9",
      "BOOL   | GT(seven, two, one)                          | TRUE",
      "BOOL   | GT(seven, one, two)                          | FALSE",
      "BOOL   | GE(seven, seven)                             | TRUE",
      "BOOL   | EQ(seven, 7, 7)                              | TRUE",
      "BOOL   | LE(one, two)                                 | TRUE",
      "BOOL   | LT(two, one)                                 | FALSE",
      "BOOL   | NE(two, one)                                 | TRUE",
      "BOOL   | 'A' < 'Z'                                    | TRUE",
      "BOOL   | 'AZ' < 'Z'                                   | TRUE",
      "BOOL   | s = 'ABCDE'                                  | TRUE",
      "BOOL   | 'ABC' = 'abc'                                | FALSE"
  })
  void selectionAndComparison(String type, String expression, String value) {
    assertThat(Evaluation.of(type, expression)).isEqualTo(value);
  }

  /** The examples of the standard's table 34, from memory, and edges of their definitions. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {
      "INT    | LEN('ASTRING')                            | 7       | example",
      "STRING | LEFT(IN := 'ASTR', L := 3)                | AST     | example",
      "STRING | RIGHT(IN := 'ASTR', L := 3)               | STR     | example",
      "STRING | MID(IN := 'ASTR', L := 2, P := 2)         | ST      | example",
      "STRING | CONCAT('AB', 'CD', 'E')                   | ABCDE   | example",
      "STRING | INSERT(IN1 := 'ABC', IN2 := 'XY', P := 2) | ABXYC   | example",
      "STRING | DELETE(IN := 'ABXYC', L := 2, P := 3)     | ABC     | example",
      "STRING | REPLACE(IN1 := 'ABCDE', IN2 := 'X', L := 2, P := 3) | ABXE | example",
      "INT    | FIND(IN1 := 'ABCBC', IN2 := 'BC')         | 2       | example",
      "INT    | FIND('ABC', 'X')                          | 0       | none found",
      "INT    | LEN(e)                                    | 0       | empty",
      "STRING | LEFT(s, 99)                               | ABCDE   | more than there is",
      "STRING | MID(s, 99, 5)                             | E       | more than there is",
      "STRING | INSERT(s, 'X', 0)                         | XABCDE  | before the first",
      "STRING | RIGHT(s, 0)                               | ``      | none",
      "STRING | MID(s, 2, 6)                            | ``      | from just past the end",
      "STRING | INSERT(s, 'X', 5)                       | ABCDEX  | after the last",
      "STRING | DELETE(s, 99, 4)                        | ABC     | more than there is",
      "STRING | DELETE(s, 1, 6)                         | ABCDE   | from just past the end",
      "STRING | REPLACE(s, 'XYZ', 99, 5)                | ABCDXYZ | more than there is",
      "STRING | REPLACE(s, 'X', 0, 6)                   | ABCDEX  | from just past the end",
      "INT    | FIND(s, e)                              | 0       | nothing is looked for",
      "INT    | FIND(e, s)                              | 0       | nothing to look in",
      "STRING[3] | INSERT(s, 'XY', 1)                   | AXY     | cut to the variable's length",
      "STRING[3] | CONCAT(s, 'F')                         | ABC     | cut to the variable's length"
  })
  void strings(String type, String expression, String value, String why) {
    assertThat(Evaluation.of(type, expression)).as(why).isEqualTo(value);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "DINT  | REAL_TO_DINT(REAL#1.6)      | 2",
      "DINT  | REAL_TO_DINT(REAL#-1.6)     | -2",
      "DINT  | REAL_TO_DINT(REAL#1.5)      | 2",
      "DINT  | REAL_TO_DINT(r)             | 2",
      "DINT  | REAL_TO_DINT(REAL#-1.5)     | -2",
      "DINT  | REAL_TO_DINT(REAL#1.4)      | 1",
      "DINT  | TRUNC(REAL#1.6)             | 1",
      "DINT  | TRUNC(REAL#-1.6)            | -1",
      "INT   | REAL_TRUNC_INT(REAL#-1.4)   | -1",
      "INT   | TRUNC_INT(l * 79.0)         | 7",
      "LREAL | INT_TO_LREAL(minus7)        | -7.0",
      "UINT  | WORD_BCD_TO_UINT(16#1234)   | 1234",
      "WORD  | UINT_TO_BCD_WORD(UINT#25)   | 37",
      "INT   | WORD_TO_INT(w)              | -32767",
      "WORD  | INT_TO_WORD(minus7)         | 65529",
      "BYTE  | WORD_TO_BYTE(w)             | 1",
      "BOOL  | WORD_TO_BOOL(w)             | TRUE",
      "BOOL  | INT_TO_BOOL(zero)           | FALSE",
      "INT   | BOOL_TO_INT(yes)            | 1",
      "DWORD | REAL_TO_DWORD(REAL#1.0)     | 1065353216",
      "REAL  | DWORD_TO_REAL(16#40490FDB)  | 3.1415927410125732",
      "DINT  | TIME_TO_DINT(t)             | 1500",
      "TIME  | DINT_TO_TIME(250)           | 250000000",
      "REAL  | TIME_TO_REAL(t)             | 1500.0",
      "LINT  | LTIME_TO_LINT(T#2us)        | 2000",
      "LTIME | INT_TO_LTIME(2000)          | 2000",
      "LTIME | LINT_TO_LTIME(5000000000) + LTIME#1ns | 5000000001",
      "LTIME | LREAL_TO_LTIME(2.5e3)       | 2500",
      "INT   | TO_INT(r)                   | 2",
      "DATE  | DT_TO_DATE(DT#1970-01-02-03:00:00) | 86400000000000",
      "TOD   | DT_TO_TOD(DT#1970-01-02-03:00:00)  | 10800000000000",
      "INT   | STRING_TO_INT('-42')        | -42",
      "LREAL | STRING_TO_LREAL('1.5E2')    | 150.0"
  })
  void conversions(String type, String expression, String value) {
    assertThat(Evaluation.of(type, expression)).isEqualTo(value);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "INT_TO_STRING(minus7)    | -7", "ULINT_TO_STRING(ulint) | 18446744073709551615", "BOOL_TO_STRING(yes) | TRUE",
      "REAL_TO_STRING(r)        | 2.5", "TIME_TO_STRING(t)     | T#1s500ms", "TO_STRING(T#-25h)      | T#-1d1h"
  })
  void valuesAsStrings(String expression, String value) {
    assertThat(Evaluation.of("STRING", expression)).isEqualTo(value);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "TIME | t + T#1s                                     | 2500000000",
      "TIME | t - T#2s                                     | -500000000",
      "TIME | t * 2                                        | 3000000000",
      "TIME | t * r                                        | 3750000000",
      "TIME | t / two                                      | 750000000",
      "TIME | MUL_TIME(t, 1.5)                             | 2250000000",
      "TIME | -t                                           | -1500000000",
      "BOOL | t > T#1s                                     | TRUE",
      "TOD  | TOD#23:59:59 + T#2s                          | 1000000000",
      "TIME | TOD#10:00:00 - TOD#09:00:00                  | 3600000000000",
      "TIME | D#2026-03-01 - D#2026-02-28                  | 86400000000000",
      "DT   | DT#1970-01-01-00:00:00 + T#1s                | 1000000000",
      "DT   | CONCAT_DATE_TOD(D#1970-01-02, TOD#00:00:01)  | 86401000000000",
      "DATE | CONCAT_DATE(1970, 1, 3)                      | 172800000000000",
      "INT  | DAY_OF_WEEK(D#2026-11-25)                    | 3"
  })
  void times(String type, String expression, String value) {
    assertThat(Evaluation.of(type, expression)).isEqualTo(value);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {
      "INT    | MUX(seven, 1, 2)                | MUX was to select input 7 of 0..1",
      "STRING | MID(s, 1, 9)                    | MID from position 9 of a string of 5 characters",
      "STRING | MID(s, minus7, 1)               | MID of -7 characters",
      "STRING | MID(s, 1, zero)                 | MID from position 0 of a string of 5 characters",
      "STRING | LEFT(s, minus7)                 | LEFT of -7 characters",
      "STRING | RIGHT(s, minus7)                | RIGHT of -7 characters",
      "STRING | INSERT(s, 'X', minus7)          | INSERT at position -7 of a string of 5 characters",
      "STRING | INSERT(s, 'X', 6)               | INSERT at position 6 of a string of 5 characters",
      "STRING | DELETE(s, 1, zero)              | DELETE from position 0 of a string of 5 characters",
      "STRING | DELETE(s, 1, 7)                 | DELETE from position 7 of a string of 5 characters",
      "STRING | DELETE(s, minus7, 1)            | DELETE of -7 characters",
      "STRING | REPLACE(s, 'X', 1, seven)       | REPLACE from position 7 of a string of 5 characters",
      "STRING | REPLACE(s, 'X', minus7, 1)      | REPLACE of -7 characters",
      "WORD   | SHL(w, minus7)                  | the shift count -7 is negative",
      "INT    | STRING_TO_INT(s)                | the string 'ABCDE' is no whole number",
      "UINT   | WORD_BCD_TO_UINT(16#00FA)       | 16#FA is no BCD number",
      "BYTE   | USINT_TO_BCD_BYTE(u200)         | 200 has more digits than 8 bits of BCD hold",
      "DATE   | CONCAT_DATE(2026, 2, 29)        | there is no day 2026-2-29"
  })
  void wrongArgumentsAreErrorsAtTheirLine(String type, String expression, String message) {
    assertThat(Evaluation.error(type, expression, LogicOptions.DEFAULT)).isEqualTo(message);
  }

  @Test
  void everyOperationHasItsRoutine() {
    List<String> routines = Stream.of(StandardLibrary.class, TextLibrary.class, TimeLibrary.class)
        .flatMap(library -> Arrays.stream(library.getMethods())).map(Method::getName).toList();
    for (Operation operation : Operation.values()) {
      String[] words = operation.name().toLowerCase(Locale.ROOT).split("_");
      StringBuilder name = new StringBuilder(words[0]);
      for (int i = 1; i < words.length; i++) {
        name.append(words[i].substring(0, 1).toUpperCase(Locale.ROOT)).append(words[i].substring(1));
      }
      assertThat(routines).contains(name.toString());
    }
  }
}
