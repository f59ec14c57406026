package dev.pawl.report.json;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import java.io.InputStream;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A report of each version that there has been, as the pawl of its time wrote it: the same rules over the same two
 * traces. All of them must stay readable.
 */
class EarlierReportsTest {

  private static ReportDigest read(int version) throws Exception {
    String name = "report-" + version + ".json";
    try (InputStream in = EarlierReportsTest.class.getResourceAsStream("/dev/pawl/report/earlier/" + name)) {
      assertThat(in).as(name + " is kept for ever").isNotNull();
      byte[] text = in.readAllBytes();
      assertThat(new String(text, java.nio.charset.StandardCharsets.UTF_8)).contains("\"formatVersion\" : " + version);
      return JsonReportReader.read(name, new java.io.ByteArrayInputStream(text));
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3})
  void eachVersionTellsTheSameOfTheSameTraces(int version) throws Exception {
    ReportDigest report = read(version);
    assertThat(report.partial()).isFalse();
    assertThat(report.traces()).hasSize(2);
    List<RuleDigest> late = report.traces().get(0).rules();
    assertThat(late).extracting(RuleDigest::id).containsExactly("STOP-01", "GATE-01", "GATE-02");
    assertThat(late).extracting(RuleDigest::verdict)
        .containsExactly(Verdict.BROKEN, Verdict.HELD, Verdict.HELD);
    Obligations stop = late.get(0).obligations();
    assertThat(stop.missed()).isEqualTo(1);
    assertThat(report.traces().get(1).rules().get(0).verdict()).isEqualTo(Verdict.HELD);
    assertThat(report.traces().get(1).rules().get(0).obligations().met()).isEqualTo(1);
    assertThat(late.get(0).margin()).as("150 ms late").isPresent();
    assertThat(report.rules()).extracting(rule -> rule.title()).contains("Emergency stop stops the lift");
  }

  @Test
  void noVersionIsMissingHere() throws Exception {
    for (int version = JsonReportFormat.OLDEST_READ; version <= JsonReportFormat.VERSION; version++) {
      read(version);
    }
  }
}
