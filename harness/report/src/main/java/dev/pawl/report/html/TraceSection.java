package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.Truth;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.TruthWords;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** One trace: the table of rules, then the findings of each rule that needs attention, then zones and reading. */
final class TraceSection {

  private final Markup html;
  private final TraceResult trace;
  private final String anchor;

  TraceSection(Markup html, TraceResult trace, String anchor) {
    this.html = html;
    this.trace = trace;
    this.anchor = anchor;
  }

  void write() {
    html.open("section", "class", "trace", "id", anchor, "aria-labelledby", anchor + "-title");
    html.element("h2", trace.path(), "id", anchor + "-title");
    if (!trace.reading().failure().isEmpty()) {
      html.element("p", (trace.rules().isEmpty() ? "Not read: " : "Stopped: ") + trace.reading().failure(), "class",
          "notice");
    }
    trace.truth().ifPresent(this::truth);
    if (!trace.rules().isEmpty()) {
      html.element("p", extent(), "class", "extent");
      if (trace.partial()) {
        html.element("p", "Partial: judging stopped at " + TimeText.at(trace.timeBase(), trace.end()) + ".", "class",
            "notice");
      }
      rules();
      FindingSection findings = new FindingSection(html, trace, anchor);
      for (RuleResult rule : sorted()) {
        if (rule.verdict() == Verdict.BROKEN || rule.verdict() == Verdict.UNDECIDED) {
          findings.write(rule);
        }
      }
      new ZoneSection(html, trace, anchor).write();
    }
    reading();
    html.end();
  }

  private void truth(Truth truth) {
    for (String line : TruthWords.unnoticed(truth, trace.timeBase())) {
      html.element("p", TruthWords.UNNOTICED + ": " + line, "class", "notice");
    }
    html.open("ul", "class", "reading");
    html.element("li", "rules broken: " + trace.count(Verdict.BROKEN));
    TruthWords.lines(truth, trace.timeBase()).forEach(line -> html.element("li", line));
    html.end();
    truth.paths().ifPresent(it -> new PathDiagram(html, trace, truth, it).write());
  }

  private String extent() {
    return TimeText.duration(trace.end() - trace.start()) + " from " + TimeText.at(trace.timeBase(), trace.start())
        + " to "
        + TimeText.at(trace.timeBase(), trace.end()) + "; " + ValueText.count(trace.events()) + " events.";
  }

  private List<RuleResult> sorted() {
    List<RuleResult> rules = new ArrayList<>();
    for (Verdict verdict : VerdictMark.ORDER) {
      trace.rules().stream().filter(rule -> rule.verdict() == verdict).forEach(rules::add);
    }
    return rules;
  }

  private void rules() {
    html.open("div", "class", "wide").open("table", "class", "rules", "role", "table", "data-filter", "");
    html.element("caption", "Rules, those that need attention first");
    html.open("thead").open("tr");
    for (String column : new String[] {"Verdict", "Rule", "Severity", "Obligations", "Smallest margin"}) {
      html.element("th", column, "scope", "col");
    }
    html.close().end().open("tbody");
    for (RuleResult rule : sorted()) {
      row(rule);
    }
    html.close().close().end();
  }

  private void row(RuleResult rule) {
    boolean detailed = rule.verdict() == Verdict.BROKEN || rule.verdict() == Verdict.UNDECIDED;
    html.open("tr", "role", "row", "data-verdict", rule.verdict().label()).open("td", "role", "cell");
    VerdictMark.write(html, rule.verdict());
    html.close().open("th", "scope", "row", "role", "rowheader");
    html.open("span", "class", "id");
    if (detailed) {
      html.open("a", "href", "#" + anchor + "-r" + rule.rule().index()).text(rule.rule().id()).close();
    } else {
      html.text(rule.rule().id());
    }
    html.close().text(" ").open("span", "class", "title").text(rule.rule().title()).close().close();
    html.element("td", rule.rule().severity().name().toLowerCase(Locale.ROOT), "role", "cell", "data-label",
        "Severity");
    html.element("td", counts(rule), "role", "cell", "data-label", "Obligations");
    html.open("td", "class", "margin", "role", "cell", "data-label", "Smallest margin");
    rule.margin().ifPresent(this::margin);
    html.close().end();
  }

  private String counts(RuleResult rule) {
    boolean matters = rule.verdict() == Verdict.NOT_EXERCISED || rule.seen().watched().isPresent();
    String seen = matters ? FindingWords.seen(rule.seen()) : "";
    List<String> parts = new ArrayList<>(List.of(FindingWords.obligations(rule.obligations())));
    if (!seen.isEmpty()) {
      parts.add(seen);
    }
    if (rule.seen().unconfirmed() > 0) {
      parts.add(FindingWords.unconfirmed(rule.seen()));
    }
    if (!rule.rule().proof().untried().isEmpty()) {
      parts.add("untried: " + rule.rule().proof().untried());
    }
    parts.addAll(FindingWords.tried(rule.rule(), rule.seen().tried(), trace.timeBase()));
    return String.join("; ", parts);
  }

  private void margin(MarginResult margin) {
    html.open("span", "class", margin.value() < 0 ? "size below" : "size").text(FindingWords.margin(margin)).close();
    html.text(" ").open("span", "class", "where").text("at " + TimeText.at(trace.timeBase(), margin.time())).close();
  }

  private void reading() {
    Reading reading = trace.reading();
    if (reading.counters().isEmpty() && reading.problems().isEmpty() && trace.overwritten() == 0) {
      return;
    }
    html.element("h3", "What reading met").open("ul", "class", "reading");
    for (Reading.Counter counter : reading.counters()) {
      html.element("li", ValueText.count(counter.count()) + " " + counter.label());
    }
    if (trace.overwritten() > 0) {
      html.element("li", FindingWords.overwritten(trace.overwritten()));
    }
    for (Reading.Problem problem : reading.problems()) {
      html.element("li", (problem.line() > 0 ? "line " + problem.line() + ": " : "") + problem.message());
    }
    if (reading.problemCount() > reading.problems().size()) {
      html.element("li", "and " + ValueText.count(reading.problemCount() - reading.problems().size()) + " more");
    }
    html.end();
  }
}
