package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The rules over all traces of a run: above all, which of them no trace ever put to the test. */
final class OverviewSection {

  private static final int LINKS = 5;

  private final Markup html;
  private final List<RuleOverview> rules;

  OverviewSection(Markup html, Report report) {
    this.html = html;
    this.rules = RuleOverview.of(report);
  }

  void write() {
    if (rules.isEmpty()) {
      return;
    }
    html.open("section", "aria-labelledby", "overview").element("h2", "Rules over all traces", "id", "overview");
    html.element("p", summary(), "class", "extent");
    html.open("div", "class", "wide").open("table", "class", "rules", "role", "table", "data-filter", "");
    html.open("thead").open("tr");
    for (String column : new String[] {"Verdict", "Rule", "Severity", "Traces", "Obligations", "Smallest margin"}) {
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
    return ValueText.count(rules.size()) + " rules. " + rest;
  }

  private void row(RuleOverview overview) {
    html.open("tr", "role", "row", "data-verdict", overview.verdict().label()).open("td", "role", "cell");
    VerdictMark.write(html, overview.verdict());
    html.close().open("th", "scope", "row", "role", "rowheader");
    html.open("span", "class", "id").text(overview.rule().id()).close().text(" ");
    html.open("span", "class", "title").text(overview.rule().title()).close().close();
    html.element("td", overview.rule().severity().name().toLowerCase(Locale.ROOT), "role", "cell", "data-label",
        "Severity");
    html.open("td", "role", "cell", "data-label", "Traces").text(FindingWords.spread(overview));
    traces(overview);
    html.close().element("td", counts(overview), "role", "cell", "data-label", "Obligations");
    html.open("td", "class", "margin", "role", "cell", "data-label", "Smallest margin");
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

  /** Where to read on: the findings of the traces that gave the verdict, where it needs attention. */
  private void traces(RuleOverview overview) {
    if (overview.verdict() != Verdict.BROKEN && overview.verdict() != Verdict.UNDECIDED) {
      return;
    }
    List<RuleOverview.InTrace> behind = overview.results().stream()
        .filter(each -> each.result().verdict() == overview.verdict()).toList();
    for (RuleOverview.InTrace each : behind.subList(0, Math.min(LINKS, behind.size()))) {
      html.text(" ").open("span", "class", "where").element("a", name(each), "href",
          "#t" + (each.number() + 1) + "-r" + overview.rule().index()).close();
    }
    if (behind.size() > LINKS) {
      html.text(" and " + ValueText.count(behind.size() - LINKS) + " more");
    }
  }

  private void margin(RuleOverview.InTrace closest) {
    closest.result().margin().ifPresent(margin -> html.open("span", "class", margin.value() < 0 ? "size below" : "size")
        .text(FindingWords.margin(margin)).close());
    html.text(" ").open("span", "class", "where").text("in ")
        .element("a", name(closest), "href", "#t" + (closest.number() + 1))
        .close();
  }

  private static String name(RuleOverview.InTrace each) {
    String path = each.trace().path();
    return path.substring(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
  }
}
