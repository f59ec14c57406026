package dev.pawl.report.json;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What is not a report, and the exact message it gets. */
class JsonReportReaderTest {

  private static final String HEAD = "{\"format\":\"pawl-report\",\"formatVersion\":1,\"partial\":false,\"traces\":";

  static Stream<Arguments> wrong() {
    return Stream.of(
        Arguments.of("", "a.json: not a report of pawl; expected a report.json that 'pawl check --out' wrote"),
        Arguments.of("[1, 2]", "a.json: not a report of pawl; expected a report.json that 'pawl check --out' wrote"),
        Arguments.of("{\"format\":\"other\"}",
        "a.json: not a report of pawl; expected a report.json that 'pawl check --out' wrote"),
        Arguments.of("{\"format\":7}", "a.json: format is not as expected; expected a text"),
        Arguments.of("{\"format\":\"pawl-report\",\"formatVersion\":3}",
            "a.json: report version 3 is not known; this pawl reads versions 1 to 2"),
        Arguments.of("{\"format\":\"pawl-report\",\"formatVersion\":1}", "a.json: partial is missing"),
        Arguments.of(HEAD + "{}}", "a.json: traces is not as expected; expected a list"),
        Arguments.of(HEAD + "[{\"path\":\"t\"}]}", "a.json: traces[0].rules is missing"),
        Arguments.of(HEAD + "[{\"path\":\"t\",\"rules\":[{\"id\":\"A\",\"title\":\"\",\"verdict\":\"passed\"}]}]}",
            "a.json: traces[0].rules[0].verdict is not as expected; expected one of held, broken, not-exercised, "
                + "undecided"),
        Arguments.of(HEAD
            + "[{\"path\":\"t\",\"rules\":[{\"id\":\"A\",\"title\":\"\",\"verdict\":\"held\",\"obligations\":"
            + "{\"met\":1}}]}]}", "a.json: traces[0].rules[0].obligations.missed is missing"),
        Arguments.of(HEAD
            + "[{\"path\":\"t\",\"rules\":[{\"id\":\"A\",\"title\":\"\",\"verdict\":\"held\",\"obligations\":"
            + "{\"met\":-1,\"missed\":0,\"open\":0,\"borderline\":0,\"unknown\":0,\"cancelled\":0,\"unknownTriggers\":0}}]}],"
            + "\"inputs\":[]}",
            "a.json: a count of obligations is negative; expected a report.json that 'pawl check --out' wrote"));
  }

  @ParameterizedTest
  @MethodSource("wrong")
  void aWrongReportGetsAnExactMessage(String text, String message) {
    assertThatThrownBy(() -> JsonReportReader.read("a.json",
        new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8))))
        .isInstanceOf(ReportFormatException.class).hasMessage(message);
  }

  @ParameterizedTest
  @MethodSource("cutOff")
  void whatIsNotJsonIsSaidWithItsPlace(String text, String start) {
    assertThatThrownBy(() -> JsonReportReader.read("a.json",
        new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8))))
        .isInstanceOf(ReportFormatException.class).hasMessageStartingWith(start);
  }

  static Stream<Arguments> cutOff() {
    return Stream.of(Arguments.of("\u0000\u0000\u0000{\uffff\uffff", "a.json: not JSON in UTF-8"),
        Arguments.of(HEAD + "[", "a.json:1:"), Arguments.of("{\n  nonsense", "a.json:2:"));
  }
}
