package dev.pawl.report.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.engine.Verdict;
import dev.pawl.report.SampleRide;
import dev.pawl.report.compare.ReportDigest;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringWriter;
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
        Arguments.of("{\"format\":\"pawl-report\",\"formatVersion\":4}",
            "a.json: report version 4 is not known; this pawl reads versions 1 to 3"),
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

  static Stream<Arguments> everyVersion() throws IOException {
    String counts = "{\"met\":2,\"missed\":1,\"open\":0,\"borderline\":0,\"unknown\":0,\"cancelled\":0,"
        + "\"unknownTriggers\":0";
    String first = HEAD + "[{\"path\":\"t\",\"rules\":[{\"id\":\"STOP-01\",\"title\":\"\",\"verdict\":\"broken\","
        + "\"obligations\":" + counts + "}}]}],\"inputs\":[]}";
    String second = first.replace("formatVersion\":1", "formatVersion\":2").replace(counts, counts
        + ",\"alreadySo\":1,\"miscounted\":0");
    StringWriter third = new StringWriter();
    JsonReportWriter.write(SampleRide.report(), third);
    return Stream.of(Arguments.of(1, first), Arguments.of(2, second), Arguments.of(3, third.toString()));
  }

  @ParameterizedTest
  @MethodSource("everyVersion")
  void everyVersionSoFarCanBeRead(int version, String text) throws Exception {
    assertThat(text.replaceAll("\\s", "")).contains("\"formatVersion\":" + version);
    ReportDigest digest = JsonReportReader.read("a.json", new ByteArrayInputStream(text.getBytes(
        StandardCharsets.UTF_8)));
    assertThat(digest.traces().get(0).rules().get(0).id()).isEqualTo("STOP-01");
    assertThat(digest.traces().get(0).rules().get(0).verdict()).isEqualTo(Verdict.BROKEN);
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
