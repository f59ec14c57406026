package dev.pawl.report.junit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.report.SampleRide;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

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
    assertThat(List.of(suites.getAttribute("tests"), suites.getAttribute("failures"), suites.getAttribute("errors")))
        .containsExactly("5", "1", "0");
    assertThat(suiteOf(document).getAttribute("skipped")).isEqualTo("2");
  }

  @Test
  void whereProofIsRequiredWhatIsNotProvenIsAnError() throws Exception {
    Document document = parse(SampleRide.report().requiringProof(true));
    assertThat(messageOf(document, "ZONE-01", "error")).startsWith("not exercised:");
    assertThat(messageOf(document, "LIFT-01", "error")).isEqualTo("undecided: 1 open when the trace ended");
    assertThat(document.getElementsByTagName("skipped").getLength()).isZero();
    assertThat(document.getDocumentElement().getAttribute("errors")).isEqualTo("2");
    assertThat(List.of(suiteOf(document).getAttribute("errors"), suiteOf(document).getAttribute("skipped")))
        .containsExactly("2", "0");
  }

  @Test
  void acceptedIsSaidAndWhatIsAcceptedNoLongerFails() throws Exception {
    Document document = parse(SampleRide.decided());
    assertThat(messageOf(document, "STOP-01", "failure"))
        .startsWith("accepted until 2026-12-31 by J. Smith: no response by the deadline");
    assertThat(messageOf(document, "accept LIFT-02", "failure"))
        .isEqualTo("its last day was 2026-11-24; what it accepted counts again");
    assertThat(document.getDocumentElement().getAttribute("tests")).isEqualTo("8");
    assertThat(document.getDocumentElement().getAttribute("failures")).isEqualTo("2");
  }

  /** junit-4.xsd, which Jenkins published; see NOTICE beside it. */
  @Test
  void everyFormFollowsThePublishedSchema() throws Exception {
    TraceResult unreadable = TraceResult.unreadable("gone.csv",
        new Reading(List.of(), List.of(), 1, "line 3: \"x\" is no time"));
    for (Report report : List.of(SampleRide.report(), SampleRide.report().requiringProof(true), SampleRide.decided(),
        SampleRide.report(unreadable, SampleRide.trace()))) {
      schema().newValidator().validate(new StreamSource(new StringReader(written(report))));
    }
    String wrong = written(SampleRide.report()).replaceFirst("<testcase classname", "<testcase class");
    assertThatThrownBy(() -> schema().newValidator().validate(new StreamSource(new StringReader(wrong))))
        .isInstanceOf(SAXException.class);
  }

  private static Schema schema() throws Exception {
    try (InputStream in = JunitReportWriterTest.class.getResourceAsStream("/dev/pawl/report/published/junit-4.xsd")) {
      // This one had no message where a case is skipped; those that came after it have, as an error has.
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8).replace(
          "<xs:element name=\"skipped\" type=\"xs:string\"/>", "<xs:element name=\"skipped\"><xs:complexType"
              + " mixed=\"true\"><xs:attribute name=\"message\" type=\"xs:string\"/></xs:complexType></xs:element>");
      return SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
          .newSchema(new StreamSource(new StringReader(text)));
    }
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
    assertThat(caseOf(document, "STOP-01").getTextContent()).contains("]]></failure><x a='\"&\uFFFD\uFFFD was ");
  }

  private static String written(Report report) throws IOException {
    StringWriter out = new StringWriter();
    JunitReportWriter.write(report, out);
    return out.toString();
  }

  private static Document parse(Report report) throws Exception {
    return DocumentBuilderFactory.newInstance().newDocumentBuilder()
        .parse(new InputSource(new StringReader(written(report))));
  }

  private static Element suiteOf(Document document) {
    return (Element) document.getElementsByTagName("testsuite").item(0);
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
