package dev.pawl.report.html;

import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;

/** The zones of a trace: what was counted in and out, and the counts that cannot be right. */
final class ZoneSection {

  private final Markup html;
  private final TraceResult trace;
  private final String anchor;

  ZoneSection(Markup html, TraceResult trace, String anchor) {
    this.html = html;
    this.trace = trace;
    this.anchor = anchor;
  }

  void write() {
    if (trace.zones().isEmpty()) {
      return;
    }
    html.element("h3", "Zones, as counted from their own flags");
    html.open("div", "class", "wide", "tabindex", "0").open("table", "class",
        "zones").open("thead").open("tr");
    html.element("th", "Zone", "scope", "col");
    for (String column : new String[] {"Holds", "Counted in", "Counted out"}) {
      html.element("th", column, "scope", "col", "class", "number");
    }
    html.element("th", "At the start", "scope", "col").element("th", "In it at the end", "scope", "col")
        .element("th", "Counts that cannot be right", "scope", "col");
    html.close().end().open("tbody");
    trace.zones().forEach(this::row);
    html.close().close().end();
    for (int i = 0; i < trace.zones().size(); i++) {
      if (!trace.zones().get(i).findings().isEmpty()) {
        findings(trace.zones().get(i), anchor + "-z" + i);
      }
    }
  }

  private void row(ZoneResult zone) {
    String inside = zone.least() == zone.most() ? Integer.toString(zone.least())
        : "between " + zone.least() + " and " + zone.most() + ", not proven";
    html.open("tr").open("th", "scope", "row", "class", "code").text(zone.name()).close();
    html.element("td", Integer.toString(zone.holds()), "class", "number").element("td", ValueText.count(zone.entered()),
        "class", "number");
    html.element("td", ValueText.count(zone.left()), "class", "number");
    html.element("td", zone.start().map(start -> FindingWords.start(zone, start)).orElse("not stated"))
        .element("td", inside);
    html.element("td", zone.findingCount() == 0 ? "none" : ValueText.count(zone.findingCount())).end();
  }

  private void findings(ZoneResult zone, String id) {
    html.open("article", "id", id, "class", "zone", "aria-labelledby", id + "-title");
    html.open("div", "class", "side").element("p", "tracking finding", "class", "severity").end()
        .open("div", "class", "main");
    html.open("h3", "id", id + "-title").text("Zone ").open("span", "class", "id").text(zone.name()).close().end();
    html.element("p",
        "The count cannot be right. It may be a missed or chattering sensor, a roll-back, or trains too close.");
    for (ZoneResult.Tracking finding : zone.findings()) {
      String sentence = FindingWords.tracking(finding.kind());
      html.open("section", "class", "finding");
      html.element("h4", "At " + TimeText.at(trace.timeBase(), finding.time()) + " " + sentence);
      finding.picture().ifPresent(picture -> FindingView.picture(html, picture, MarkedInstants.at(finding.time()),
          finding.evidence(), "zone " + zone.name() + ": " + sentence));
      finding.picture().ifPresent(picture -> FindingView.next(html, picture, finding.time()));
      FindingView.evidence(html, finding.evidence(), trace.timeBase());
      html.end();
    }
    if (zone.findingCount() > zone.findings().size()) {
      html.element("p", ValueText.count(zone.findingCount() - zone.findings().size())
          + " more are counted, but not kept in this report.",
          "class", "notice");
    }
    html.close().end();
  }
}
