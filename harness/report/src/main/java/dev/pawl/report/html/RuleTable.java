package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.List;

/** The rules over all traces of a run, one row each: above all, which of them no trace ever put to the test. */
final class RuleTable {

  private static final int LINKS = 3;

  private final Markup html;
  private final List<RuleOverview> rules;

  RuleTable(Markup html, List<RuleOverview> rules) {
    this.html = html;
    this.rules = rules;
  }

  void write() {
    if (rules.isEmpty()) {
      return;
    }
    html.open("section", "aria-labelledby", "rules").element("h2", "Rules over all traces", "id", "rules");
    html.element("p", summary(), "class", "extent");
    html.open("div", "class", "wide", "tabindex", "0").open("table", "class", "rules", "role", "table",
        "data-filter", "");
    html.element("caption", "Those that need attention first; each leads to its text, basis and evidence");
    html.open("thead").open("tr");
    for (String column : new String[] {"Verdict", "Rule", "Traces", "Obligations and trials",
        "Nearest margin"}) {
      html.element("th", column, "scope", "col");
    }
    html.close().end().open("tbody");
    for (Verdict verdict : VerdictMark.ORDER) {
      rules.stream().filter(rule -> rule.verdict() == verdict).forEach(this::row);
    }
    html.close().close().close().end();
  }

  private String summary() {
    long never = rules.stream().filter(rule -> rule.verdict() == Verdict.NOT_EXERCISED).count();
    String rest = never == 0 ? "The traces together exercise each of them."
        : ValueText.count(never) + (never == 1 ? " was" : " were") + " never exercised: the traces together do not put "
            + (never == 1 ? "it" : "them") + " to the test.";
    return ValueText.count(rules.size(), "rule") + ". " + rest;
  }

  private void row(RuleOverview overview) {
    html.open("tr", "role", "row", "data-verdict", overview.verdict().label()).open("td", "role", "cell");
    VerdictMark.write(html, overview.verdict());
    html.close().open("th", "scope", "row", "role", "rowheader");
    Links.rule(html, overview.rule());
    html.text(" ").open("span", "class", "title").text(overview.rule().title()).close();
    List<String> serves = overview.rule().satisfies();
    html.open("span", "class", "said").text(GlanceSection.severity(overview.rule())
        + (serves.isEmpty() ? "" : "; serves " + String.join(", ", serves))).close().close();
    html.open("td", "role", "cell", "data-label", "Traces").text(FindingWords.spread(overview));
    traces(overview);
    html.close().element("td", counts(overview), "role", "cell", "data-label", "Obligations and trials");
    html.open("td", "class", "margin", "role", "cell", "data-label", "Nearest margin");
    overview.closest().ifPresent(this::margin);
    html.close().end();
  }

  private static String counts(RuleOverview overview) {
    List<String> parts = new ArrayList<>(List.of(FindingWords.obligations(overview.obligations())));
    parts.addAll(FindingWords.tried(overview.rule(), overview.tried(), TimeBase.START));
    if (overview.isHeldUntried()) {
      parts.add("does not say what would try it");
    }
    return String.join("; ", parts);
  }

  /** The traces that gave the verdict, where it needs attention. */
  private void traces(RuleOverview overview) {
    if (overview.verdict() != Verdict.BROKEN && overview.verdict() != Verdict.UNDECIDED) {
      return;
    }
    List<RuleOverview.InTrace> behind = overview.results().stream()
        .filter(each -> each.result().verdict() == overview.verdict()).toList();
    for (RuleOverview.InTrace each : behind.subList(0, Math.min(LINKS, behind.size()))) {
      html.text(" ").open("span", "class", "where");
      Links.trace(html, each);
      html.close();
    }
    if (behind.size() > LINKS) {
      html.text(" and " + ValueText.count(behind.size() - LINKS) + " more");
    }
  }

  private void margin(RuleOverview.InTrace closest) {
    closest.result().margin().ifPresent(margin -> html.open("span", "class", margin.value() < 0 ? "size below" : "size")
        .text(FindingWords.margin(margin)).close());
    html.text(" ").open("span", "class", "where").text("in ");
    Links.trace(html, closest);
    html.close();
  }
}
