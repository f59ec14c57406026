package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.io.IOException;
import java.io.InputStream;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;

/** Writes a report as one HTML page that needs nothing else: no network, no other file, and no script to be read. */
public final class HtmlReportWriter {

  private final Markup html = new Markup();
  private final Writer out;

  private HtmlReportWriter(Writer out) {
    this.out = out;
  }

  /** Writes the whole page; leaves {@code out} open and flushed. */
  public static void write(Report report, Writer out) throws IOException {
    HtmlReportWriter writer = new HtmlReportWriter(out);
    writer.page(report);
    out.flush();
  }

  private void page(Report report) throws IOException {
    String style = PageLook.style() + resource("report.css");
    String script = resource("report.js");
    html.own("<!DOCTYPE html>\n").open("html", "lang", "en").open("head");
    html.lone("meta", "charset", "utf-8");
    html.lone("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
    html.lone("meta", "http-equiv", "Content-Security-Policy", "content",
        "default-src 'none'; style-src 'unsafe-inline'; script-src '" + hash(script) + "'");
    html.element("title", title(report));
    html.open("style").own(style).end();
    html.end().open("body");
    header(report);
    flush();
    for (int i = 0; i < report.traces().size(); i++) {
      new TraceSection(html, report.traces().get(i), "t" + (i + 1)).write();
      flush();
    }
    inputs(report);
    html.open("footer");
    html.element("p", "Written by pawl " + report.version() + (report.created().isEmpty() ? ""
        : " at " + report.created())
        + ".");
    html.end();
    html.open("script").own(script).end();
    html.end().end();
    flush();
  }

  private void flush() throws IOException {
    out.write(html.take());
  }

  private static String title(Report report) {
    String ride = report.ride().isEmpty() ? "Rules and traces" : report.ride();
    long broken = report.count(Verdict.BROKEN);
    return ride + ": " + (broken > 0 ? broken + " broken" : "none broken");
  }

  private void header(Report report) {
    html.open("header");
    html.element("p", "What the traces show", "class", "kicker");
    html.element("h1", report.ride().isEmpty() ? "Unnamed ride" : report.ride());
    html.open("p", "class", "lead").text(sum(report)).end();
    if (report.partial()) {
      html.element("p", "Partial report: the run was interrupted. What was not read is not judged.", "class", "notice");
    }
    html.open("ul", "class", "cautions");
    for (String caution : Cautions.of(report)) {
      html.element("li", caution);
    }
    html.end();
    if (report.traces().size() > 1) {
      contents(report);
    }
    html.end();
    if (report.traces().size() > 1) {
      new OverviewSection(html, report).write();
    }
    new DecisionSection(html, report).write();
  }

  private static String sum(Report report) {
    List<String> parts = new ArrayList<>();
    for (Verdict verdict : VerdictMark.ORDER) {
      if (report.count(verdict) > 0) {
        parts.add(ValueText.count(report.count(verdict)) + " " + FindingWords.verdict(verdict));
      }
    }
    int traces = report.traces().size();
    String over = traces == 1 ? " in one trace." : ", counted over " + traces + " traces.";
    String unjudged = report.unjudged() > 0 ? " " + FindingWords.unjudged(report.unjudged()) + "." : "";
    return (parts.isEmpty() ? "Nothing was judged." : "Rules: " + String.join(", ", parts) + over) + unjudged;
  }

  private void contents(Report report) {
    html.open("nav", "class", "wide", "aria-label", "Traces").open("table", "class", "contents");
    html.open("thead").open("tr").element("th", "Trace", "scope", "col");
    for (Verdict verdict : VerdictMark.ORDER) {
      html.open("th", "scope", "col", "class", "number");
      VerdictMark.write(html, verdict);
      html.end();
    }
    html.close().end().open("tbody");
    for (int i = 0; i < report.traces().size(); i++) {
      TraceResult trace = report.traces().get(i);
      html.open("tr").open("td").element("a", trace.path(), "href", "#t" + (i + 1)).close();
      for (Verdict verdict : VerdictMark.ORDER) {
        boolean read = !trace.rules().isEmpty();
        html.element("td", read ? ValueText.count(trace.count(verdict)) : "not read", "class", "number");
      }
      html.end();
    }
    html.close().close().end();
  }

  private void inputs(Report report) {
    html.open("section", "aria-labelledby", "inputs").element("h2", "What this rests on", "id", "inputs");
    html.open("div", "class", "wide").open("table");
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

  static String resource(String name) throws IOException {
    try (InputStream in = HtmlReportWriter.class.getResourceAsStream("/dev/pawl/report/" + name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** The hash that lets the page's own script run and no other, as Content Security Policy level 2 defines it. */
  private static String hash(String script) {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(script.getBytes(StandardCharsets.UTF_8));
      return "sha256-" + Base64.getEncoder().encodeToString(digest);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
