package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.collect.RuleMargins;
import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RequirementOverview;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.words.DecisionWords;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.LapsedDecision;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The first page: what was asked, what broke, what is not proven, how near the nearest came, and what to do next. It
 * fits on a sheet whatever the size of the run.
 */
final class GlanceSection {

  private static final int MOST = 6;
  private static final int NEAREST = 4;

  private final Markup html;
  private final Report report;
  private final List<RuleOverview> rules;
  private final List<RequirementOverview> requirements;

  GlanceSection(Markup html, Report report, List<RuleOverview> rules, List<RequirementOverview> requirements) {
    this.html = html;
    this.report = report;
    this.rules = rules;
    this.requirements = requirements;
  }

  void write() {
    html.open("section", "class", "glance", "aria-labelledby", "glance").element("h2", "At a glance", "id", "glance");
    html.element("p", asked());
    tally();
    broken();
    unproven();
    nearest();
    next();
    html.end();
  }

  private String asked() {
    if (rules.isEmpty()) {
      return "Nothing was judged: no trace could be read.";
    }
    long critical = rules.stream().filter(it -> it.rule().severity() == Rule.Severity.CRITICAL).count();
    long files = report.inputs().stream().filter(it -> it.role() == Input.Role.RULES).count();
    long judged = report.traces().size() - report.unjudged();
    long time = report.traces().stream().mapToLong(trace -> trace.end() - trace.start()).sum();
    String unread = report.unjudged() > 0 ? "; " + FindingWords.unjudged(report.unjudged()) : "";
    String stated = requirements.isEmpty() ? "The rules state no requirements."
        : "They serve " + ValueText.count(requirements.stream().filter(it -> !it.rules().isEmpty()).count()) + " of "
            + ValueText.count(requirements.size(), "stated requirement") + ".";
    return "Asked: do " + ValueText.count(rules.size(), "rule") + ", " + critical + " of them critical"
        + (files > 0 ? ", out of " + ValueText.count(files, "file") : "") + ", hold in "
        + ValueText.count(judged, "trace") + " of " + TimeText.duration(time) + " together" + unread + "? " + stated;
  }

  private void tally() {
    html.open("ul", "class", "tally");
    for (Verdict verdict : VerdictMark.ORDER) {
      long count = with(verdict).size();
      html.open("li").open("span", "class", "count").text(ValueText.count(count)).close();
      VerdictMark.write(html, verdict);
      html.end();
    }
    html.end();
  }

  private List<RuleOverview> with(Verdict verdict) {
    return rules.stream().filter(rule -> rule.verdict() == verdict)
        .sorted(Comparator.comparing((RuleOverview rule) -> rule.rule().severity()).reversed()).toList();
  }

  private void broken() {
    List<RuleOverview> broken = with(Verdict.BROKEN);
    html.element("h3", "What broke");
    if (broken.isEmpty()) {
      html.element("p", rules.isEmpty() ? "Nothing can be said." : "No rule was broken in these traces.");
      return;
    }
    html.open("ol", "class", "plain");
    for (RuleOverview rule : broken.subList(0, Math.min(MOST, broken.size()))) {
      html.open("li");
      Links.rule(html, rule.rule());
      html.text(" " + rule.rule().title() + " \u2013 " + severity(rule.rule()) + "; broken in "
          + rule.count(Verdict.BROKEN) + " of " + ValueText.count(rule.results().size(), "trace") + ", ");
      Links.trace(html, worst(rule));
      html.text(rule.closest().flatMap(it -> it.result().margin()).map(it -> ", at worst by " + rough(it)).orElse("")
          + accepted(rule));
      html.end();
    }
    html.end();
    more(broken.size() - MOST);
  }

  /** The trace in which it is broken worst, or the first where that has no measure. */
  private static RuleOverview.InTrace worst(RuleOverview rule) {
    return rule.closest().orElseGet(() -> rule.results().stream()
        .filter(it -> it.result().verdict() == Verdict.BROKEN).findFirst().orElseThrow());
  }

  private String accepted(RuleOverview rule) {
    List<Acceptance> accepting = report.decisions().accepting(rule);
    return accepting.isEmpty() ? "" : "; " + DecisionWords.accepted(accepting);
  }

  /** How much it is, to three digits and without the sign. */
  private static String rough(MarginResult margin) {
    double value = new BigDecimal(Math.abs(margin.value())).round(new MathContext(3)).doubleValue();
    return FindingWords.margin(new MarginResult(value, margin.unit(), 0, 0, margin.atMost() && margin.value() >= 0));
  }

  static String severity(Rule rule) {
    return rule.severity().name().toLowerCase(Locale.ROOT);
  }

  private void more(int count) {
    if (count > 0) {
      html.open("p").text("and " + ValueText.count(count) + " more in the ").open("a", "href", "#rules")
          .text("table of rules").close().end();
    }
  }

  private void unproven() {
    html.element("h3", "What is not proven").open("ul", "class", "plain");
    int before = gaps(Verdict.UNDECIDED, "undecided: the traces do not tell") + gaps(Verdict.NOT_EXERCISED,
        "not exercised: no trace puts them to the test");
    List<Rule> untried = rules.stream().filter(RuleOverview::isHeldUntried).map(RuleOverview::rule).toList();
    if (!untried.isEmpty()) {
      gap(untried, "held, but nothing says what would have tried them");
    }
    List<String> open = requirements.stream().filter(it -> it.rules().isEmpty()).map(it -> it.requirement().id())
        .toList();
    if (!open.isEmpty()) {
      html.open("li").text(ValueText.count(open.size(), "requirement") + " without a rule: "
          + String.join(", ", open.subList(0, Math.min(MOST, open.size()))) + (open.size() > MOST ? " and "
              + (open.size() - MOST) + " more" : "")).end();
    }
    if (before == 0 && untried.isEmpty() && open.isEmpty()) {
      html.element("li", "Every rule was put to the test and decided.");
    }
    html.end();
  }

  private int gaps(Verdict verdict, String why) {
    List<Rule> such = with(verdict).stream().map(RuleOverview::rule).toList();
    if (!such.isEmpty()) {
      gap(such, why);
    }
    return such.size();
  }

  private void gap(List<Rule> such, String why) {
    html.open("li").text(ValueText.count(such.size(), "rule") + " " + why + ": ");
    for (int i = 0; i < Math.min(MOST, such.size()); i++) {
      html.text(i == 0 ? "" : ", ");
      Links.rule(html, such.get(i));
    }
    html.text(such.size() > MOST ? " and " + ValueText.count(such.size() - MOST) + " more" : "");
    html.end();
  }

  private record Near(RuleOverview rule, RuleMargins margins) {}

  private void nearest() {
    List<Near> near = new ArrayList<>();
    for (RuleOverview rule : rules) {
      RuleMargins margins = RuleMargins.of(rule);
      if (rule.verdict() != Verdict.BROKEN && margins.nearestShare().isPresent()) {
        near.add(new Near(rule, margins));
      }
    }
    near.sort(Comparator.comparingDouble(it -> it.margins().nearestShare().getAsDouble()));
    html.element("h3", "How near the nearest came");
    if (near.isEmpty()) {
      html.element("p", "No rule that was not broken has a margin to speak of.");
      return;
    }
    html.open("ol", "class", "plain");
    for (Near each : near.subList(0, Math.min(NEAREST, near.size()))) {
      RuleOverview.InTrace nearest = each.margins().nearestFirst().get(0);
      html.open("li");
      Links.rule(html, each.rule().rule());
      html.text(" " + each.rule().rule().title() + " \u2013 " + left(each.margins()) + ", in ");
      Links.trace(html, nearest);
      html.end();
    }
    html.end();
  }

  /** How much of what is allowed was left; of an undecided rule it may have been used up, and more. */
  private static String left(RuleMargins margins) {
    MarginResult nearest = RuleMargins.margin(margins.nearestFirst().get(0));
    if (nearest.value() < 0) {
      return rough(new MarginResult(-nearest.value(), nearest.unit(), 0, 0, false)) + " past "
          + allowed(margins) + ", and undecided";
    }
    return rough(nearest) + " left of " + allowed(margins) + " ("
        + Math.round(100 * margins.nearestShare().getAsDouble()) + " %)";
  }

  static String allowed(RuleMargins margins) {
    MarginResult some = RuleMargins.margin(margins.nearestFirst().get(0));
    return rough(new MarginResult(margins.allowed().getAsDouble(), some.unit(), 0, 0, false));
  }

  private void next() {
    html.element("h3", "What to do next").open("ul", "class", "plain");
    if (!with(Verdict.BROKEN).isEmpty()) {
      html.open("li").text("Find the cause of what broke: begin with the ").open("a", "href", "#symptoms")
          .text("first symptom of each trace").close().text(".").end();
    }
    Optional<RuleOverview> untried = with(Verdict.NOT_EXERCISED).stream().findFirst();
    if (untried.isPresent()) {
      html.open("li").text("Record a trace that tries what was not exercised; each rule says what would, such as ");
      Links.rule(html, untried.get().rule());
      html.text(".").end();
    }
    if (!with(Verdict.UNDECIDED).isEmpty()) {
      html.element("li", "For what is undecided, see its reasons: a longer trace, a finer log or a mended signal.");
    }
    if (requirements.stream().anyMatch(it -> it.rules().isEmpty())) {
      html.element("li", "Write a rule for each requirement without one, or show it by other means.");
    }
    int lapsed = LapsedDecision.of(report).size();
    if (lapsed > 0) {
      html.open("li").text("Renew or take away what ").open("a", "href", "#decisions").text("persons decided").close()
          .text(" and is expired, about nothing or of another report: " + ValueText.count(lapsed, "decision")
              + ".").end();
    }
    html.element("li", "Judge the assumptions and the cautions, and sign or refuse at the end.");
    html.end();
  }
}
