package dev.pawl.report.html;

import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.List;

/** The zones of a trace: what was counted in and out, and the counts that cannot be right. */
final class ZoneSection {

  private final Markup html;
  private final TraceResult trace;
  private final String anchor;
  private final boolean all;

  /**
   * A section on the zones of one trace.
   *
   * @param all whether zones are listed of which there is nothing to say but how many trains were counted
   */
  ZoneSection(Markup html, TraceResult trace, String anchor, boolean all) {
    this.html = html;
    this.trace = trace;
    this.anchor = anchor;
    this.all = all;
  }

  void write() {
    if (trace.zones().isEmpty()) {
      return;
    }
    html.element("h3", "Zones, as counted from their own flags");
    List<ZoneResult> listed = trace.zones().stream().filter(zone -> all || isDoubtful(zone)).toList();
    if (listed.size() < trace.zones().size()) {
      html.element("p", ValueText.count(trace.zones().size() - listed.size(), "zone") + " of "
          + ValueText.count(trace.zones().size()) + " without a doubt about the count; how many trains each had"
          + " stands in report.json.");
    }
    if (!listed.isEmpty()) {
      table(listed);
    }
    for (int i = 0; i < trace.zones().size(); i++) {
      if (!trace.zones().get(i).findings().isEmpty()) {
        findings(trace.zones().get(i), anchor + "-z" + i);
      }
    }
  }

  private static boolean isDoubtful(ZoneResult zone) {
    return zone.findingCount() > 0 || zone.least() != zone.most() || zone.start().isPresent() && !zone.start().get()
        .counts();
  }

  private void table(List<ZoneResult> listed) {
    html.open("div", "class", "wide", "tabindex", "0").open("table", "class",
        "zones").open("thead").open("tr");
    html.element("th", "Zone", "scope", "col");
    for (String column : new String[] {"Holds", "Counted in", "Counted out"}) {
      html.element("th", column, "scope", "col", "class", "number");
    }
    html.element("th", "At the start", "scope", "col").element("th", "In it at the end", "scope", "col")
        .element("th", "Counts that cannot be right", "scope", "col");
    html.close().end().open("tbody");
    listed.forEach(this::row);
    html.close().close().end();
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
