package dev.pawl.report.junit;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.report.SampleRide;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import java.io.StringReader;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;

/** junit.xml, read back by the JDK's own XML parser. */
class JunitReportWriterTest {

  @Test
  void thereIsOneCasePerRuleAndNothingUnprovenPasses() throws Exception {
    Document document = parse(SampleRide.report());
    assertThat(document.getElementsByTagName("testcase").getLength()).isEqualTo(5);
    assertThat(caseOf(document, "STOP-01").getElementsByTagName("failure").getLength()).isEqualTo(1);
    assertThat(messageOf(document, "ZONE-01", "skipped")).startsWith("not exercised:");
    assertThat(messageOf(document, "LIFT-01", "skipped")).isEqualTo("undecided: 1 open when the trace ended");
    assertThat(caseOf(document, "LIFT-02").getElementsByTagName("*").getLength()).isZero();
    Element suites = document.getDocumentElement();
    assertThat(List.of(suites.getAttribute("tests"), suites.getAttribute("failures"), suites.getAttribute("skipped"),
        suites.getAttribute("errors"))).containsExactly("5", "1", "2", "0");
  }

  @Test
  void aFailureCarriesItsEvidence() throws Exception {
    Element failure = (Element) caseOf(parse(SampleRide.report()), "STOP-01").getElementsByTagName("failure").item(0);
    assertThat(failure.getAttribute("message")).isEqualTo(
        "no response by the deadline, 723.950 s (500 ms after the trigger); it came at 724.200 s, 250 ms late");
    assertThat(failure.getTextContent()).contains("traces/day.csv:1102: lift_run became true at 700.010 s");
  }

  @Test
  void anUnreadableTraceIsAnError() throws Exception {
    TraceResult unreadable = TraceResult.unreadable("gone.csv",
        new Reading(List.of(), List.of(), 1, "line 3: \"x\" is no time"));
    Document document = parse(SampleRide.report(unreadable));
    Element error = (Element) document.getElementsByTagName("error").item(0);
    assertThat(error.getAttribute("message")).isEqualTo("line 3: \"x\" is no time");
  }

  @Test
  void hostileTextIsEscaped() throws Exception {
    String hostile = "]]></failure><x a='\"&\u0000\u001b";
    TraceResult trace = SampleRide.trace();
    RuleResult rule = trace.rules().get(0);
    FindingResult finding = rule.broken().get(0);
    List<EvidenceResult> evidence = List.of(new EvidenceResult(finding.evidence().get(0).moment(), 0, hostile, hostile,
        hostile, 0));
    List<RuleResult> rules = new ArrayList<>(trace.rules());
    rules.set(0, new RuleResult(rule.rule(), rule.obligations(), rule.margin(), rule.seen(),
        List.of(new FindingResult(finding.kind(), 0, 0, false, finding.deadline(), finding.lateResponse(), evidence,
        finding.picture())), List.of()));
    Document document = parse(SampleRide.report(new TraceResult(hostile, trace.timeBase(), 0, 0, 0, 0, 0, false,
        Reading.CLEAN, rules, List.of())));
    assertThat(document.getElementsByTagName("x").getLength()).isZero();
    assertThat(caseOf(document, "STOP-01").getTextContent()).contains("]]></failure><x a='\"&\uFFFD\uFFFD became ");
  }

  private static Document parse(Report report) throws Exception {
    StringWriter out = new StringWriter();
    JunitReportWriter.write(report, out);
    return DocumentBuilderFactory.newInstance().newDocumentBuilder()
        .parse(new InputSource(new StringReader(out.toString())));
  }

  private static Element caseOf(Document document, String rule) {
    for (int i = 0; i < document.getElementsByTagName("testcase").getLength(); i++) {
      Element element = (Element) document.getElementsByTagName("testcase").item(i);
      if (element.getAttribute("name").startsWith(rule + " ")) {
        return element;
      }
    }
    throw new AssertionError("no case for " + rule);
  }

  private static String messageOf(Document document, String rule, String tag) {
    return ((Element) caseOf(document, rule).getElementsByTagName(tag).item(0)).getAttribute("message");
  }
}
