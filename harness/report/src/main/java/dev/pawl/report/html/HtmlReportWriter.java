package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RequirementOverview;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.Assumptions;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.io.IOException;
import java.io.InputStream;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * Writes report.html: what a reader signs, on few sheets whatever the size of the run. The evidence stands rule by rule
 * in the page of {@link HtmlRulesWriter} beside it. It needs no network, and no script to be read.
 */
public final class HtmlReportWriter {

  private final Markup html = new Markup();
  private final Report report;
  private final List<RuleOverview> rules;

  private HtmlReportWriter(Report report) {
    this.report = report;
    this.rules = RuleOverview.of(report);
  }

  /** Writes the whole page; leaves {@code out} open and flushed. */
  public static void write(Report report, Writer out) throws IOException {
    HtmlReportWriter writer = new HtmlReportWriter(report);
    writer.page();
    out.write(writer.html.take());
    out.flush();
  }

  private void page() throws IOException {
    PageFrame frame = new PageFrame(html);
    List<String> scripts = List.of(resource("report.js"));
    frame.begin(report, PageFrame.title(report) + ": " + outcome(), "", List.of(PageLook.style(),
        resource("report.css")), scripts);
    header();
    html.open("main", "id", "main");
    List<RequirementOverview> requirements = RequirementOverview.of(report, rules);
    new GlanceSection(html, report, rules, requirements).write();
    cautions();
    new RecordSection(html, report, rules).write();
    assumptions();
    new RequirementSection(html, report, rules, requirements).write();
    new RuleTable(html, rules).write();
    new SymptomSection(html, report, rules).write();
    new DecisionSection(html, report).write();
    traces();
    inputs();
    signatures();
    html.end();
    html.open("footer");
    html.element("p", "Written by pawl " + report.version() + (report.created().isEmpty() ? ""
        : " at " + report.created()) + ".");
    html.end();
    frame.end(scripts);
  }

  private String outcome() {
    long broken = rules.stream().filter(rule -> rule.verdict() == Verdict.BROKEN).count();
    return broken > 0 ? ValueText.count(broken, "rule") + " broken" : "no rule broken";
  }

  private void header() {
    html.open("header");
    html.element("p", "What the traces show", "class", "kicker");
    html.element("h1", PageFrame.title(report));
    html.open("p", "class", "extent").text((report.created().isEmpty() ? "" : "Made " + report.created() + "; ")
        + "pawl " + report.version() + (report.build().isEmpty() ? "" : ", " + report.build()) + "; ")
            .open("span", "class", "code").text(PageFrame.identity(report)).close()
            .text(". ").open("a", "href", Links.RULES).text("Each rule with its evidence").close().end();
    if (report.partial()) {
      html.element("p", "Partial report: the run was interrupted. What was not read is not judged.", "class", "notice");
    }
    html.end();
  }

  private void cautions() {
    html.open("section", "aria-labelledby", "cautions").element("h2", "Cautions", "id", "cautions", "class", "quiet");
    html.open("ul", "class", "cautions");
    Cautions.of(report).forEach(caution -> html.element("li", caution));
    html.end().end();
  }

  private void traces() {
    html.open("section", "aria-labelledby", "traces").element("h2", "Traces", "id", "traces");
    html.open("div", "class", "wide", "tabindex", "0").open("table", "class", "contents");
    html.open("thead").open("tr").element("th", "Trace", "scope", "col").element("th", "Length", "scope", "col")
        .element("th", "Events", "scope", "col", "class", "number");
    for (Verdict verdict : VerdictMark.ORDER) {
      html.open("th", "scope", "col", "class", "number");
      VerdictMark.write(html, verdict);
      html.end();
    }
    html.close().end().open("tbody");
    for (int i = 0; i < report.traces().size(); i++) {
      TraceResult trace = report.traces().get(i);
      boolean read = !trace.rules().isEmpty();
      html.open("tr").open("th", "scope", "row").element("a", trace.path(), "href", Links.RULES + "#"
          + Links.traceAnchor(i)).close();
      html.element("td", read ? TimeText.duration(trace.end() - trace.start()) : "not read");
      html.element("td", read ? ValueText.count(trace.events()) : "", "class", "number");
      for (Verdict verdict : VerdictMark.ORDER) {
        html.element("td", read ? ValueText.count(trace.count(verdict)) : "", "class", "number");
      }
      html.end();
    }
    html.close().close().end();
    if (report.unjudged() > 0) {
      html.element("p", FindingWords.unjudged(report.unjudged()) + ".", "class", "notice");
    }
    html.end();
  }

  private void assumptions() {
    html.open("section", "aria-labelledby", "assumptions").element("h2",
        "Assumptions, which the verdicts take for granted", "id", "assumptions");
    html.open("ul", "class", "reading");
    List<String> sentences = new ArrayList<>(Assumptions.of(report, rules));
    if (sentences.isEmpty()) {
      sentences.add("None is known.");
    }
    sentences.forEach(sentence -> html.element("li", sentence));
    html.end().end();
  }

  private void inputs() {
    html.open("section", "aria-labelledby", "inputs").element("h2", "What this rests on", "id", "inputs");
    html.open("div", "class", "wide", "tabindex", "0").open("table", "class", "inputs");
    html.open("thead").open("tr").element("th", "File", "scope", "col").element("th", "Used as", "scope", "col")
        .element("th", "Bytes", "scope", "col", "class", "number").element("th", "SHA-256", "scope", "col").close()
            .end();
    html.open("tbody");
    for (Input input : report.inputs()) {
      html.open("tr").element("td", input.path(), "class", "code").element("td", input.role().label())
          .element("td", ValueText.count(input.bytes()), "class", "number").element("td", input.sha256(), "class",
          "code hash").end();
    }
    html.close().close().end();
    html.element("p", "In this report's folder inputs.sha256 lists these files and manifest.sha256 the report's own,"
        + " and 'pawl verify' checks both. Unsigned, a manifest finds accidents, not intent; sign it to find both.",
        "class", "extent");
    html.end();
  }

  /** Filled in by hand on paper: what is signed is the whole report, by the name of its run. */
  private void signatures() {
    html.open("section", "class", "signatures", "aria-labelledby", "signatures").element("h2", "Signatures", "id",
        "signatures");
    html.open("p").text("I have read this check, ").open("span", "class", "code").text(PageFrame.identity(report))
        .close().text(", with its cautions and assumptions. What I accept, and what I do not, stands with my name.")
            .end();
    html.open("table").open("thead").open("tr");
    for (String column : new String[] {"As", "Name", "Accepted, and what is not", "Date", "Signature"}) {
      html.element("th", column, "scope", "col");
    }
    html.close().end().open("tbody");
    for (String who : new String[] {"made by", "reviewed by", "approved by"}) {
      html.open("tr").element("th", who, "scope", "row");
      for (int i = 0; i < 4; i++) {
        html.element("td", "");
      }
      html.end();
    }
    html.close().close().end();
  }

  static String resource(String name) throws IOException {
    try (InputStream in = HtmlReportWriter.class.getResourceAsStream("/dev/pawl/report/" + name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
