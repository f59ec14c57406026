package dev.pawl.report.junit;

import dev.pawl.engine.Verdict;
import dev.pawl.grammar.source.Legible;
import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.Decisions;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.Review;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.DecisionWords;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.LapsedDecision;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.TruthWords;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes a report as JUnit XML. A broken rule is a failure with its evidence, also where it is accepted; a rule that
 * was not exercised or is undecided is skipped with the reason, or an error where proof is required, and never passed;
 * a trace that could not be read is an error. An acceptance that expired or is about nothing,
 * and a review of another report, is a failure.
 */
public final class JunitReportWriter {

  private static final String DECISIONS = "decisions";

  private final XMLStreamWriter xml;
  private final Report report;

  private JunitReportWriter(XMLStreamWriter xml, Report report) {
    this.xml = xml;
    this.report = report;
  }

  /** Writes the whole document; leaves {@code out} open and flushed. */
  public static void write(Report report, Writer out) throws IOException {
    try {
      XMLStreamWriter xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(out);
      new JunitReportWriter(xml, report).write();
      xml.close();
    } catch (XMLStreamException e) {
      throw e.getNestedException() instanceof IOException trouble ? trouble : new IOException(e);
    }
    out.flush();
  }

  private void write() throws XMLStreamException {
    List<LapsedDecision> lapsed = LapsedDecision.of(report);
    xml.writeStartDocument("UTF-8", "1.0");
    start(0, "testsuites");
    attribute("name", report.partial() ? "pawl (partial: interrupted)" : "pawl");
    counts(report.traces().stream().mapToLong(JunitReportWriter::tests).sum() + decided(),
        report.count(Verdict.BROKEN) + lapsed.size(), report.traces().stream().mapToLong(this::errors).sum());
    for (TraceResult trace : report.traces()) {
      suite(trace, Cautions.of(report));
    }
    if (!report.decisions().isEmpty()) {
      decisions(lapsed);
    }
    end(0);
    xml.writeCharacters("\n");
    xml.writeEndDocument();
  }

  private static long unread(TraceResult trace) {
    return trace.reading().failure().isEmpty() ? 0 : 1;
  }

  private static long unproven(TraceResult trace) {
    return trace.count(Verdict.NOT_EXERCISED) + trace.count(Verdict.UNDECIDED);
  }

  private long errors(TraceResult trace) {
    return unread(trace) + (report.proofRequired() ? unproven(trace) : 0);
  }

  private static long tests(TraceResult trace) {
    return trace.rules().size() + unread(trace);
  }

  private void suite(TraceResult trace, List<String> cautions) throws XMLStreamException {
    start(1, "testsuite");
    attribute("name", trace.path());
    counts(tests(trace), trace.count(Verdict.BROKEN), errors(trace));
    attribute("skipped", Long.toString(report.proofRequired() ? 0 : unproven(trace)));
    if (!trace.reading().failure().isEmpty()) {
      startCase(trace.path(), "the trace can be read");
      failed("error", "not read", trace.reading().failure(), problems(trace.reading()));
      end(2);
    }
    for (RuleResult rule : trace.rules()) {
      testCase(trace, rule);
    }
    systemOut(notes(trace, cautions));
    end(1);
  }

  private void systemOut(String text) throws XMLStreamException {
    start(2, "system-out");
    text(text);
    xml.writeEndElement();
  }

  private int decided() {
    return report.decisions().acceptances().size() + report.decisions().reviews().size();
  }

  /** What persons accept and have reviewed, as cases; one that holds no longer, or not here, fails. */
  private void decisions(List<LapsedDecision> lapsed) throws XMLStreamException {
    Decisions decisions = report.decisions();
    start(1, "testsuite");
    attribute("name", DECISIONS);
    counts(decided(), lapsed.size(), 0);
    for (Acceptance each : decisions.acceptances()) {
      decision("accept " + each.subject(), each.file(), each.line(), lapsed);
    }
    for (Review each : decisions.reviews()) {
      decision("review by " + each.by(), each.file(), each.line(), lapsed);
    }
    StringBuilder lines = new StringBuilder("\n");
    decisions.reviews().forEach(review -> lines.append("reviewed on ").append(review.on()).append(" by ")
        .append(review.by()).append(": ").append(DecisionWords.looked(review)).append('\n'));
    systemOut(lines.toString());
    end(1);
  }

  private void decision(String subject, String file, int line, List<LapsedDecision> lapsed)
      throws XMLStreamException {
    startCase(file, subject + " (line " + line + ")");
    for (LapsedDecision each : lapsed) {
      if (each.file().equals(file) && each.line() == line) {
        failed("failure", each.state(), each.words(), each.reason());
      }
    }
    end(2);
  }

  private void failed(String element, String type, String message, String text) throws XMLStreamException {
    start(3, element);
    attribute("message", message);
    attribute("type", type);
    text(text);
    xml.writeEndElement();
  }

  private void testCase(TraceResult trace, RuleResult rule) throws XMLStreamException {
    startCase(trace.path(), rule.rule().id() + " " + rule.rule().title());
    List<Acceptance> accepting = report.decisions().accepting(trace, rule);
    String accepted = accepting.isEmpty() ? "" : DecisionWords.accepted(accepting) + ": ";
    switch (rule.verdict()) {
      case HELD -> { }
      case BROKEN -> failed("failure", rule.broken().isEmpty() ? "broken" : rule.broken().get(0).kind().label(),
          accepted + failureMessage(trace, rule), evidence(trace, rule));
      case NOT_EXERCISED -> unproven(notExercised(rule));
      case UNDECIDED -> unproven(accepted + undecided(rule, trace.timeBase()));
    }
    end(2);
  }

  private void unproven(String message) throws XMLStreamException {
    if (report.proofRequired()) {
      failed("error", "not proven", message, "");
    } else {
      newLine(3);
      xml.writeEmptyElement("skipped");
      attribute("message", message);
    }
  }

  private static String undecided(RuleResult rule, TimeBase base) {
    StringBuilder reason = new StringBuilder("undecided: " + FindingWords.undecidedReason(rule));
    FindingWords.departures(rule.seen(), base).forEach(sentence -> reason.append("; ").append(sentence));
    return reason.toString();
  }

  private static String notExercised(RuleResult rule) {
    String reason = FindingWords.notExercisedReason(rule);
    return "not exercised: " + (reason.isEmpty()
        ? "no obligation arose in this trace, so it shows nothing about the rule" : reason);
  }

  private void startCase(String group, String name) throws XMLStreamException {
    start(2, "testcase");
    attribute("classname", group);
    attribute("name", name);
    attribute("time", "0");
  }

  private static String problems(Reading reading) {
    StringBuilder lines = new StringBuilder("\n");
    for (Reading.Problem problem : reading.problems()) {
      lines.append(problem.line() > 0 ? "line " + problem.line() + ": " : "").append(problem.message()).append('\n');
    }
    return lines.toString();
  }

  private static String failureMessage(TraceResult trace, RuleResult rule) {
    return rule.broken().isEmpty() ? FindingWords.obligations(rule.obligations())
        : FindingWords.sentence(rule.rule(), rule.broken().get(0), trace.timeBase());
  }

  private static String evidence(TraceResult trace, RuleResult rule) {
    StringBuilder lines = new StringBuilder();
    TimeBase base = trace.timeBase();
    lines.append('\n').append(rule.rule().text()).append('\n');
    lines.append("obligations: ").append(FindingWords.obligations(rule.obligations())).append('\n');
    for (FindingResult finding : rule.broken()) {
      if (FindingWords.hasTrigger(rule.rule())) {
        lines.append("trigger ").append(TimeText.at(base, finding.trigger())).append(": ");
      }
      lines.append(FindingWords.sentence(rule.rule(), finding, base)).append('\n');
      for (EvidenceResult event : finding.evidence()) {
        lines.append("  ").append(event.place()).append(": ").append(FindingWords.became(event, trace))
            .append(event.wasLogged() ? " at " + TimeText.at(base, event.time()) : "").append('\n');
      }
    }
    return lines.toString();
  }

  private static String notes(TraceResult trace, List<String> cautions) {
    StringBuilder lines = new StringBuilder("\n");
    if (trace.partial()) {
      lines.append("partial: judging stopped before the end of the trace\n");
    }
    trace.truth().ifPresent(truth -> {
      TruthWords.unnoticed(truth, trace.timeBase()).forEach(line -> lines.append(TruthWords.UNNOTICED).append(": ")
          .append(line).append('\n'));
      TruthWords.lines(truth, trace.timeBase()).forEach(line -> lines.append("truth: ").append(line).append('\n'));
    });
    for (Reading.Counter counter : trace.reading().counters()) {
      lines.append("reading: ").append(counter.count()).append(' ').append(counter.label()).append('\n');
    }
    for (ZoneResult zone : trace.zones()) {
      for (ZoneResult.Tracking finding : zone.findings()) {
        lines.append("zone ").append(zone.name()).append(": ").append(FindingWords.tracking(finding.kind()));
        lines.append(" at ").append(TimeText.at(trace.timeBase(), finding.time())).append('\n');
      }
    }
    for (String caution : cautions) {
      lines.append(caution).append('\n');
    }
    return lines.toString();
  }

  private void counts(long tests, long failures, long errors) throws XMLStreamException {
    attribute("tests", Long.toString(tests));
    attribute("failures", Long.toString(failures));
    attribute("errors", Long.toString(errors));
  }

  /** Starts an element on a line of its own. */
  private void start(int depth, String name) throws XMLStreamException {
    newLine(depth);
    xml.writeStartElement(name);
  }

  /** Ends an element on a line of its own. */
  private void end(int depth) throws XMLStreamException {
    newLine(depth);
    xml.writeEndElement();
  }

  private void newLine(int depth) throws XMLStreamException {
    xml.writeCharacters("\n" + "  ".repeat(depth));
  }

  private void attribute(String name, String value) throws XMLStreamException {
    xml.writeAttribute(name, holdable(value));
  }

  private void text(String value) throws XMLStreamException {
    xml.writeCharacters(holdable(value));
  }

  /** The text with U+FFFD for all characters that XML 1.0 cannot hold, which a writer of XML lets through. */
  private static String holdable(String value) {
    StringBuilder text = new StringBuilder();
    value.codePoints().forEach(point -> text.appendCodePoint(isXml(point) ? point : 0xFFFD));
    return text.toString();
  }

  private static boolean isXml(int point) {
    return point == '\n' || point == '\t' || Legible.isLegible(point) && point != 0xFFFE && point != 0xFFFF;
  }
}
