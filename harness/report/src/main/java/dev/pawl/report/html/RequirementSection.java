package dev.pawl.report.html;

import dev.pawl.grammar.rules.advice.Unwatched;
import dev.pawl.grammar.rules.model.Requirement;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.report.collect.RuleMargins;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RequirementOverview;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The matrix of requirements: which rules serve each, where they were tried, verdict and margin; and what is left over
 * on either side.
 */
final class RequirementSection {

  private static final int MOST_RULES = 30;
  private static final int MOST_TRACES = 4;
  private static final int MOST_NAMES = 40;

  private final Markup html;
  private final Report report;
  private final List<RuleOverview> rules;
  private final List<RequirementOverview> requirements;

  RequirementSection(Markup html, Report report, List<RuleOverview> rules, List<RequirementOverview> requirements) {
    this.html = html;
    this.report = report;
    this.rules = rules;
    this.requirements = requirements;
  }

  void write() {
    html.open("section", "aria-labelledby", "requirements").element("h2", "Requirements", "id", "requirements");
    if (requirements.isEmpty()) {
      html.element("p", "The rule files state no requirements; what each rule is for stands in its basis.");
    } else {
      matrix();
    }
    List<RuleOverview> without = rules.stream().filter(rule -> rule.rule().satisfies().isEmpty()).toList();
    html.element("h3", "What is left over").open("ul", "class", "plain");
    if (!requirements.isEmpty()) {
      html.open("li").text("Rules without a requirement: ");
      Links.rules(html, without, MOST_NAMES);
      html.text(without.isEmpty() ? "none" : "").end();
    }
    Unwatched unwatched = Unwatched.of(report.book());
    if (unwatched.outputs().isEmpty() && unwatched.zones().isEmpty() && unwatched.signals().isEmpty()) {
      html.element("li", "Of every output a rule requires something, the trains of every zone matter to a rule, and a"
          + " rule or a zone looks at every signal.");
    } else {
      left("Outputs of which no rule requires anything", unwatched.outputs().stream().map(Signal::name).toList());
      left("Zones whose trains matter to no rule", unwatched.zones().stream().map(zone -> zone.name()).toList());
      left("Signals that no rule and no zone looks at", unwatched.signals().stream().map(Signal::name).toList());
    }
    html.end().end();
  }

  private void left(String what, List<String> names) {
    html.open("li").text(what + ": ").open("span", "class", names.isEmpty() ? "" : "code").text(names.isEmpty() ? "none"
        : String.join(", ", names.subList(0, Math.min(MOST_NAMES, names.size()))) + (names.size() > MOST_NAMES ? " and "
            + (names.size() - MOST_NAMES) + " more" : "")).close().end();
  }

  private void matrix() {
    html.open("div", "class", "wide", "tabindex", "0").open("table", "class", "rules matrix", "role", "table");
    html.open("thead").open("tr");
    for (String column : new String[] {"Verdict", "Requirement", "Rules", "Tried", "Nearest margin"}) {
      html.element("th", column, "scope", "col");
    }
    html.close().end().open("tbody");
    for (int i = 0; i < requirements.size(); i++) {
      row(requirements.get(i), i);
    }
    html.close().close().end();
  }

  private void row(RequirementOverview overview, int number) {
    Requirement stated = overview.requirement();
    html.open("tr", "role", "row", "id", Links.requirementAnchor(number)).open("td", "role", "cell");
    if (overview.verdict().isPresent()) {
      VerdictMark.write(html, overview.verdict().get());
    } else {
      html.element("span", "no rule", "class", "gap");
    }
    html.close().open("th", "scope", "row", "role", "rowheader").open("span", "class", "id").text(stated.id()).close();
    html.text(" ").open("span", "class", "title").text(stated.text()).close();
    List<String> said = new ArrayList<>();
    said(said, "hazard", stated.hazard());
    said(said, "required", stated.level());
    said(said, "source", stated.source());
    html.element("span", String.join("; ", said), "class", "said");
    html.close().open("td", "role", "cell", "data-label", "Rules");
    Links.rules(html, overview.rules(), MOST_RULES);
    html.text(overview.rules().isEmpty() ? "none" : "");
    html.close().open("td", "role", "cell", "data-label", "Tried");
    tried(overview);
    html.close().open("td", "class", "margin", "role", "cell", "data-label", "Nearest margin");
    nearest(overview).ifPresent(margins -> {
      RuleOverview.InTrace each = margins.nearestFirst().get(0);
      html.open("span", "class", RuleMargins.margin(each).value() < 0 ? "size below" : "size")
          .text(FindingWords.margin(RuleMargins.margin(each))).close().text(" ");
      html.open("span", "class", "where").text("of " + each.result().rule().id() + " in ");
      Links.trace(html, each);
      html.close();
    });
    html.close().end();
  }

  private static void said(List<String> said, String what, String text) {
    if (!text.isEmpty()) {
      said.add(what + ": " + text);
    }
  }

  private void tried(RequirementOverview overview) {
    List<RuleOverview.InTrace> tried = overview.triedIn();
    if (tried.isEmpty()) {
      html.text("nowhere");
      return;
    }
    html.text(ValueText.count(RuleOverview.sum(overview.rules().stream().map(RuleOverview::obligations)).arisen())
        + " obligations, in ");
    html.text(tried.size() == report.traces().size() && tried.size() > 1 ? "all " + tried.size() + " traces"
        : ValueText.count(tried.size(), "trace") + ": ");
    for (int i = 0; i < Math.min(MOST_TRACES, tried.size()) && tried.size() < report.traces().size(); i++) {
      html.text(i == 0 ? "" : ", ");
      Links.trace(html, tried.get(i));
    }
    html.text(tried.size() > MOST_TRACES && tried.size() < report.traces().size() ? " and "
        + (tried.size() - MOST_TRACES) + " more" : "");
  }

  /** That of the rule which came nearest to its own limit, or is farthest beyond it. */
  private Optional<RuleMargins> nearest(RequirementOverview overview) {
    return overview.rules().stream().map(rule -> RuleMargins.of(rule))
        .filter(margins -> !margins.nearestFirst().isEmpty())
        .min(Comparator.comparingDouble(margins -> margins.nearestShare().orElse(
            RuleMargins.margin(margins.nearestFirst().get(0)).value() < 0 ? -1 : Double.MAX_VALUE)));
  }
}
