package dev.pawl.report.junit;

import dev.pawl.engine.Verdict;
import dev.pawl.grammar.source.Legible;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import java.io.IOException;
import java.io.Writer;
import java.util.List;

/**
 * Writes a report as JUnit XML. A broken rule is a failure with its evidence; a rule that was not exercised or is undecided is
 * skipped
 * with a message, never passed; a trace that could not be read is an error.
 */
public final class JunitReportWriter {

  private final StringBuilder xml = new StringBuilder();

  private JunitReportWriter() {}

  /** Writes the whole document; leaves {@code out} open and flushed. */
  public static void write(Report report, Writer out) throws IOException {
    JunitReportWriter writer = new JunitReportWriter();
    writer.report(report);
    out.append(writer.xml);
    out.flush();
  }

  private void report(Report report) {
    long tests = 0;
    long errors = 0;
    for (TraceResult trace : report.traces()) {
      tests += tests(trace);
      errors += errors(trace);
    }
    xml.append("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites");
    attribute("name", report.partial() ? "pawl (partial: interrupted)" : "pawl");
    counts(tests, report.count(Verdict.BROKEN), errors,
        report.count(Verdict.NOT_EXERCISED) + report.count(Verdict.UNDECIDED));
    xml.append(">\n");
    for (TraceResult trace : report.traces()) {
      suite(trace, Cautions.of(report));
    }
    xml.append("</testsuites>\n");
  }

  private static long errors(TraceResult trace) {
    return trace.reading().failure().isEmpty() ? 0 : 1;
  }

  private static long tests(TraceResult trace) {
    return trace.rules().size() + errors(trace);
  }

  private void suite(TraceResult trace, List<String> cautions) {
    xml.append("  <testsuite");
    attribute("name", trace.path());
    counts(tests(trace), trace.count(Verdict.BROKEN), errors(trace),
        trace.count(Verdict.NOT_EXERCISED) + trace.count(Verdict.UNDECIDED));
    xml.append(">\n");
    if (!trace.reading().failure().isEmpty()) {
      open(trace, "the trace can be read");
      xml.append("      <error");
      attribute("message", trace.reading().failure());
      xml.append('>');
      text(problems(trace.reading()));
      xml.append("</error>\n    </testcase>\n");
    }
    for (RuleResult rule : trace.rules()) {
      testCase(trace, rule);
    }
    xml.append("    <system-out>");
    text(notes(trace, cautions));
    xml.append("</system-out>\n  </testsuite>\n");
  }

  private void testCase(TraceResult trace, RuleResult rule) {
    open(trace, rule.rule().id() + " " + rule.rule().title());
    switch (rule.verdict()) {
      case HELD -> { }
      case BROKEN -> {
        xml.append("      <failure");
        attribute("message", failureMessage(trace, rule));
        attribute("type", rule.broken().isEmpty() ? "broken" : rule.broken().get(0).kind().label());
        xml.append('>');
        text(evidence(trace, rule));
        xml.append("</failure>\n");
      }
      case NOT_EXERCISED -> skipped(notExercised(rule));
      case UNDECIDED -> skipped("undecided: " + FindingWords.undecidedReason(rule));
    }
    xml.append("    </testcase>\n");
  }

  private static String notExercised(RuleResult rule) {
    String reason = FindingWords.notExercisedReason(rule);
    return "not exercised: " + (reason.isEmpty() ? "no obligation arose in this trace, so it shows nothing about the rule" : reason);
  }

  private void open(TraceResult trace, String name) {
    xml.append("    <testcase");
    attribute("classname", trace.path());
    attribute("name", name);
    attribute("time", "0");
    xml.append(">\n");
  }

  private void skipped(String message) {
    xml.append("      <skipped");
    attribute("message", message);
    xml.append("/>\n");
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
        lines.append("  ").append(event.place()).append(": ").append(event.signal());
        lines.append(event.wasLogged() ? " became " + event.value() + " at " + TimeText.at(base, event.time())
            : " was never logged by then").append('\n');
      }
    }
    return lines.toString();
  }

  private static String notes(TraceResult trace, List<String> cautions) {
    StringBuilder lines = new StringBuilder("\n");
    if (trace.partial()) {
      lines.append("partial: judging stopped before the end of the trace\n");
    }
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

  private void counts(long tests, long failures, long errors, long skipped) {
    attribute("tests", Long.toString(tests));
    attribute("failures", Long.toString(failures));
    attribute("errors", Long.toString(errors));
    attribute("skipped", Long.toString(skipped));
  }

  private void attribute(String name, String value) {
    xml.append(' ').append(name).append("=\"");
    text(value);
    xml.append('"');
  }

  /** Escapes for both text and attributes; characters that XML 1.0 cannot hold become U+FFFD. */
  private void text(String value) {
    value.codePoints().forEach(point -> {
      switch (point) {
        case '<' -> xml.append("&lt;");
        case '>' -> xml.append("&gt;");
        case '&' -> xml.append("&amp;");
        case '"' -> xml.append("&quot;");
        case '\n', '\t' -> xml.append((char) point);
        default -> xml.appendCodePoint(isXml(point) ? point : 0xFFFD);
      }
    });
  }

  private static boolean isXml(int point) {
    return Legible.isLegible(point) && point != 0xFFFE && point != 0xFFFF;
  }
}
