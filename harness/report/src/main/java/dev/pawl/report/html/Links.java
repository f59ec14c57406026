package dev.pawl.report.html;

import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.source.Position;
import dev.pawl.report.model.FileName;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Where things stand in the two pages of a report, and the ways between them. */
final class Links {

  /** The page with what a reader signs. */
  static final String REPORT = "report.html";
  /** The page with each rule and its evidence. */
  static final String RULES = "rules.html";

  private Links() {}

  static String anchor(Rule rule) {
    return "r" + (rule.index() + 1);
  }

  static String traceAnchor(int number) {
    return "t" + (number + 1);
  }

  static String requirementAnchor(int number) {
    return "q" + (number + 1);
  }

  /** A rule's identifier, which leads to its section. */
  static void rule(Markup html, Rule rule) {
    html.open("a", "class", "id", "href", RULES + "#" + anchor(rule)).text(rule.id()).close();
  }

  /**
   * The first rules of a list with their marks, and how many there are more. Of the cases of one declaration stands the
   * one that needs attention most, for all of them.
   */
  static void rules(Markup html, List<RuleOverview> rules, int most) {
    Map<Position, List<RuleOverview>> declared = new LinkedHashMap<>();
    rules.forEach(rule -> declared.computeIfAbsent(rule.rule().position(), it -> new ArrayList<>()).add(rule));
    int shown = 0;
    for (List<RuleOverview> cases : declared.values()) {
      if (shown++ == most) {
        html.text(" and " + ValueText.count(declared.size() - most) + " more");
        break;
      }
      RuleOverview first = cases.stream().min(Comparator.comparingInt(it -> VerdictMark.ORDER.indexOf(it.verdict())))
          .orElseThrow();
      html.text(shown == 1 ? "" : ", ").open("span", "class", "one");
      VerdictMark.writeBare(html, first.verdict());
      rule(html, first.rule());
      html.close().text(cases.size() == 1 ? "" : " (and " + ValueText.count(cases.size() - 1, "more case") + ")");
    }
  }

  /** The trace's file name, which leads to its section. */
  static void trace(Markup html, RuleOverview.InTrace each) {
    html.open("a", "href", RULES + "#" + traceAnchor(each.number())).text(FileName.of(each.trace().path())).close();
  }
}
