package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.picture.PictureBudget;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.ValueText;
import java.io.IOException;
import java.io.InputStream;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Writes rules.html: each rule with its text, its basis, what its names stand for, its trials, margins and evidence,
 * and then each trace with its zones. Evidence is capped, counts are whole, and where something is left out stands the
 * command that shows it.
 */
public final class HtmlRulesWriter {

  private final Markup html = new Markup();
  private final Report report;
  private final Writer out;

  private HtmlRulesWriter(Report report, Writer out) {
    this.report = report;
    this.out = out;
  }

  /** Writes the whole page; leaves {@code out} open and flushed. */
  public static void write(Report report, Writer out) throws IOException {
    new HtmlRulesWriter(report, out).page();
    out.flush();
  }

  private void page() throws IOException {
    List<RuleOverview> rules = RuleOverview.of(report);
    PageFrame frame = new PageFrame(html);
    List<String> scripts = List.of(kept("uPlot.iife.min.js"), HtmlReportWriter.resource("timeline.js"),
        HtmlReportWriter.resource("report.js"));
    frame.begin(report, PageFrame.title(report) + ", rule by rule", ", rule by rule", List.of(PageLook.style(),
        HtmlReportWriter.resource("report.css"), kept("uPlot.min.css")), scripts);
    html.open("header").open("p", "class", "kicker").element("a", "Back to the report", "href", Links.REPORT).end();
    html.element("h1", PageFrame.title(report) + ", rule by rule");
    html.open("p", "class", "extent").text(ValueText.count(rules.size(), "rule") + ", "
        + ValueText.count(report.traces().size(), "trace") + "; ").open("span", "class", "code")
            .text(PageFrame.identity(report)).close().end();
    contents(rules);
    html.end().open("main", "id", "main");
    PictureBudget.Share share = PictureBudget.share(rules.stream().filter(rule -> rule.verdict() == Verdict.BROKEN
        || rule.verdict() == Verdict.UNDECIDED).count());
    for (RuleOverview rule : rules) {
      new RuleSection(html, report, rule, share).write();
      flush();
    }
    for (int i = 0; i < report.traces().size(); i++) {
      new TraceSection(html, report.traces().get(i), Links.traceAnchor(i), report.traces().size()).write();
      flush();
    }
    html.open("section", "aria-labelledby", "cautions").element("h2", "Cautions", "id", "cautions");
    html.open("ul", "class", "cautions");
    Cautions.of(report).forEach(caution -> html.element("li", caution));
    html.end().end().end();
    frame.end(scripts);
    flush();
  }

  /** A file of the charting library, which others keep; it goes into the page once. */
  private static String kept(String name) throws IOException {
    String place = "/META-INF/resources/webjars/uplot/1.6.30/dist/" + name;
    try (InputStream in = HtmlRulesWriter.class.getResourceAsStream(place)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private void contents(List<RuleOverview> rules) {
    html.open("nav", "aria-label", "Rules").open("ul", "class", "jumps");
    for (RuleOverview rule : rules) {
      html.open("li");
      VerdictMark.writeBare(html, rule.verdict());
      html.element("a", rule.rule().id(), "class", "id", "href", "#" + Links.anchor(rule.rule())).close();
    }
    html.end().end();
  }

  private void flush() throws IOException {
    out.write(html.take());
  }
}
