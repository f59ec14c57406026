package dev.pawl.report.html;

import dev.pawl.report.model.StressReport;
import dev.pawl.report.text.StressText;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.ValueText;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.function.ToLongFunction;
import java.util.stream.IntStream;

/**
 * Writes what a campaign of faults showed as one page: hazards that no rule noticed, the smallest run for each hazard,
 * and kinds of faults against rules. Its numbers say all, so that it can be printed and read without colour.
 */
public final class StressPage {

  private static final String LAYOUT = "table{width:auto}th{vertical-align:bottom}td.n{text-align:right}"
      + "th.r{writing-mode:vertical-rl}td.hit{font-weight:600}.matrix{font-size:.72rem}"
      + ".matrix th,.matrix td{padding:.15rem .22rem .15rem 0;min-width:1.05rem}.matrix td.n{text-align:center}"
      + ".matrix tr>th:first-child{white-space:nowrap}.matrix td:nth-child(4n){border-right:1px solid var(--line)}";

  private final Markup html = new Markup();
  private final StressReport report;

  private StressPage(StressReport report) {
    this.report = report;
  }

  /** Writes the page; leaves {@code out} open and flushed. */
  public static void write(StressReport report, Writer out) throws IOException {
    StressPage page = new StressPage(report);
    page.write();
    out.write(page.html.take());
    out.flush();
  }

  private void write() throws IOException {
    html.own("<!DOCTYPE html>\n").open("html", "lang", "en").open("head");
    html.lone("meta", "charset", "utf-8");
    html.lone("meta", "http-equiv", "Content-Security-Policy", "content",
        "default-src 'none'; style-src 'unsafe-inline'");
    html.element("title", report.ride() + " under faults");
    html.open("style").own(PageLook.style()).own(HtmlReportWriter.resource("report.css")).own(LAYOUT).end();
    html.end().open("body").open("header");
    html.element("p", "What faults show", "class", "kicker");
    html.element("h1", report.ride() + " under faults");
    StressReport.Campaign campaign = report.campaign();
    html.element("p", runs(report.counts().runs()) + " of '" + campaign.scenario() + "', seed " + campaign.seed()
        + (report.isWhole() ? "" : "; ended early, " + runs(campaign.runs() - report.counts().runs()) + " not made"),
        "class", "lead");
    html.open("ul", "class", "cautions");
    html.element("li", "The trains of these runs were simulated. A model of a ride is not the ride.");
    Cautions.ALL.forEach(caution -> html.element("li", caution));
    html.end().end().open("main");
    if (!report.brokenAnyway().isEmpty()) {
      html.element("p", "Broken without any fault, and so taken to notice nothing: " + String.join(", ", report
          .brokenAnyway()));
    }
    hazards();
    found();
    broken();
    matrix();
    html.end().end().end();
  }

  private void hazards() {
    html.element("h2", report.hasUnnoticed() ? "Hazards that no rule noticed" : "No hazard went unnoticed");
    html.open("table").open("tr");
    List.of("hazard", "runs, not noticed", "runs, noticed").forEach(it -> html.element("th", it));
    html.end();
    for (StressReport.Hazards hazard : report.counts().hazards()) {
      html.open("tr").element("td", hazard.kind().words());
      number(hazard.unnoticed());
      number(hazard.noticed());
      html.end();
    }
    html.end();
    html.element("p", "A rule was broken and no hazard was there: " + runs(report.counts().brokenOnly())
        + ". Neither: " + runs(report.counts().quiet()) + ".");
  }

  private static String runs(long count) {
    return ValueText.count(count, "run");
  }

  private void number(long count) {
    html.element("td", count == 0 ? "" : ValueText.count(count), "class", count == 0 ? "n" : "n hit");
  }

  private void found() {
    html.element("h2", "The smallest run for each hazard");
    html.open("ol");
    for (StressReport.Found found : report.smallest().found()) {
      html.open("li").element("b", found.words() + (found.noticed() ? "" : ". No rule noticed it"));
      html.element("p", StressText.run(found.steps(), found.lasts(), found.file()) + "; the like in "
          + runs(found.count())
          + (found.brokenBy().isEmpty() ? "" : "; broken: " + String.join(", ", found.brokenBy())));
      html.end();
    }
    html.end();
  }

  private void broken() {
    if (report.smallest().broken().isEmpty()) {
      return;
    }
    html.element("h2", "The smallest run for each rule that was broken");
    html.open("table").open("tr");
    List.of("rule", "nothing failed", "what fails, or people do", "runs").forEach(it -> html.element("th", it));
    html.end();
    for (StressReport.Broken broken : report.smallest().broken()) {
      html.open("tr").element("td", broken.rule()).element("td", broken.byPeople() ? "people did it" : "");
      html.element("td", StressText.run(broken.steps(), broken.lasts(), broken.file()));
      number(broken.count());
      html.end();
    }
    html.end();
  }

  /**
   * Rules are the rows, since they are many: so the table is no wider than a printed page. Only those that some single
   * fault broke have one.
   */
  private void matrix() {
    List<Integer> shown = IntStream.range(0, report.rules().size()).filter(rule -> report.kinds().stream()
        .anyMatch(kind -> kind.broken().get(rule) > 0)).boxed().toList();
    html.element("h2", "One fault alone: in how many runs each kind broke which rule");
    html.open("div", "class", "wide", "tabindex", "0").open("table", "class", "matrix").open("thead").open("tr");
    html.element("th", "");
    report.kinds().forEach(kind -> html.element("th", kind.name(), "class", "r", "scope", "col"));
    html.end();
    row("runs", StressReport.Kind::runs);
    row("hazards", StressReport.Kind::hazards);
    row("hazards not noticed", StressReport.Kind::unnoticed);
    html.end().open("tbody");
    shown.forEach(rule -> row(report.rules().get(rule), kind -> kind.broken().get(rule)));
    html.end().end().end();
    html.element("p", "Broken in no run at all: " + (report.neverBroken().isEmpty() ? "none" : String.join(", ", report
        .neverBroken())));
  }

  private void row(String name, ToLongFunction<StressReport.Kind> count) {
    html.open("tr").element("th", name, "scope", "row");
    report.kinds().forEach(kind -> number(count.applyAsLong(kind)));
    html.end();
  }
}
