package dev.pawl.logic.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Literals. Forms and examples of IEC 61131-3 tables 5 to 9, from memory; dates by java.time, an implementation of ISO
 * 8601.
 */
class LiteralsTest {

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "INT   | -12                  | -12",
      "DINT  | 123_456              | 123456",
      "INT   | +986                 | 986",
      "BYTE  | 2#1111_1111          | 255",
      "BYTE  | 2#1110_0000          | 224",
      "BYTE  | 8#377                | 255",
      "BYTE  | 8#340                | 224",
      "BYTE  | 16#FF                | 255",
      "BYTE  | 16#ff                | 255",
      "BYTE  | 16#E0                | 224",
      "INT   | INT#-123             | -123",
      "INT   | INT#16#7FFF          | 32767",
      "WORD  | WORD#16#AFF          | 2815",
      "UINT  | UINT#16#89AF         | 35247",
      "ULINT | 18446744073709551615 | 18446744073709551615",
      "LINT  | -9223372036854775808 | -9223372036854775808",
      "BOOL  | TRUE                 | TRUE",
      "BOOL  | BOOL#0               | FALSE",
      "BOOL  | BOOL#TRUE            | TRUE",
      "BOOL  | 1                    | TRUE",
      "LREAL | -12.0                | -12.0",
      "LREAL | 0.4560               | 0.456",
      "LREAL | 3.14159_26           | 3.1415926",
      "LREAL | -1.34E-12            | -1.34E-12",
      "LREAL | 1.0e+6               | 1000000.0",
      "LREAL | REAL#5               | 5.0",
      "LREAL | 7                    | 7.0"
  })
  void numbers(String type, String literal, String value) {
    assertThat(Evaluation.of(type, literal)).isEqualTo(value);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "T#14ms                        | 14000000",
      "T#-14ms                       | -14000000",
      "TIME#14.7s                    | 14700000000",
      "T#14.7m                       | 882000000000",
      "T#14.7h                       | 52920000000000",
      "t#14.7d                       | 1270080000000000",
      "t#25h_15m                     | 90900000000000",
      "T#5d14h12m18s3.5ms            | 483138003500000",
      "t#5d_14h_12m_18s_3.5ms        | 483138003500000",
      "LTIME#5m_30s_500ms_100.1us    | 330500100100",
      "LT#1d2h3m4s5ms6us7ns          | 93784005006007",
      "T#0s                          | 0"
  })
  void durationsInNanoseconds(String literal, long nanoseconds) {
    assertThat(Evaluation.of("LTIME", literal)).isEqualTo(Long.toString(nanoseconds));
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "DATE           | DATE#1984-06-25                  | 456969600000000000",
      "DATE           | d#1970-01-01                     | 0",
      "LDATE          | LD#2012-02-29                    | 1330473600000000000",
      "TIME_OF_DAY    | TIME_OF_DAY#15:36:55.36          | 56215360000000",
      "TOD            | tod#23:59:59.999                 | 86399999000000",
      "DATE_AND_TIME  | DATE_AND_TIME#1984-06-25-15:36:55.360 | 457025815360000000",
      "LDT            | LDT#1984-06-25-15:36:55.360_227_400   | 457025815360227400"
  })
  void datesInNanoseconds(String type, String literal, long nanoseconds) {
    assertThat(Evaluation.of(type, literal)).isEqualTo(Long.toString(nanoseconds));
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {
      "STRING  | ''                    | 0  | ",
      "STRING  | 'A'                   | 1  | 41",
      "STRING  | ' '                   | 1  | 20",
      "STRING  | '$''                  | 1  | 27",
      "STRING  | '\"'                  | 1  | 22",
      "STRING  | '$R$L'                | 2  | 0d0a",
      "STRING  | '$0D$0A'              | 2  | 0d0a",
      "STRING  | '$$1.00'              | 5  | 24312e3030",
      "STRING  | '$n$t$p'              | 3  | 0a090c",
      "WSTRING | \"$\"\"               | 1  | 22",
      "WSTRING | \"$00C4\"             | 1  | c4",
      "WSTRING | \"'\"                 | 1  | 27"
  })
  void strings(String type, String literal, int length, String codes) {
    String value = Evaluation.of(type, literal);
    StringBuilder seen = new StringBuilder();
    value.chars().forEach(c -> seen.append(String.format("%02x", c)));
    assertThat(value).hasSize(length);
    assertThat(seen.toString()).isEqualTo(codes == null ? "" : codes);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {"CHAR | CHAR#'A' | 65", "CHAR | 'A' | 65",
      "WCHAR | WCHAR#\"$20AC\" | 8364"})
  void characters(String type, String literal, String code) {
    assertThat(Evaluation.of(type, literal)).isEqualTo(code);
  }
}
