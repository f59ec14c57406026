package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.Truth;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.TruthWords;
import dev.pawl.report.words.ValueText;
import java.util.List;

/** One trace: what truly happened where that is known, the rules that need attention, zones, and how reading went. */
final class TraceSection {

  private static final int MOST_RULES = 10;
  private static final int FEWEST_RULES = 3;
  /** Rules of each verdict that all sections name together, unless these are too few for one: links print slowly. */
  private static final int RULES_OF_A_REPORT = 200;
  /** In a report of more traces only those zones are listed of whose count there is a doubt. */
  private static final int MOST_WITH_ALL_ZONES = 20;

  private final Markup html;
  private final TraceResult trace;
  private final String anchor;
  private final int named;
  private final boolean allZones;

  /**
   * A section on one trace.
   *
   * @param traces how many traces the report has
   */
  TraceSection(Markup html, TraceResult trace, String anchor, int traces) {
    this.html = html;
    this.trace = trace;
    this.anchor = anchor;
    this.named = Math.max(FEWEST_RULES, Math.min(MOST_RULES, RULES_OF_A_REPORT / traces));
    this.allZones = traces <= MOST_WITH_ALL_ZONES;
  }

  void write() {
    html.open("section", "class", "trace", "id", anchor, "aria-labelledby", anchor + "-title");
    html.open("h2", "id", anchor + "-title").element("a", trace.path(), "href", Links.REPORT + "#inputs").end();
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
      new ZoneSection(html, trace, anchor, allZones).write();
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

  /** The rules that need attention here, which lead to their evidence; the others are only counted. */
  private void rules() {
    html.open("ul", "class", "plain");
    for (Verdict verdict : VerdictMark.ORDER) {
      List<RuleResult> such = trace.rules().stream().filter(rule -> rule.verdict() == verdict).toList();
      if (such.isEmpty()) {
        continue;
      }
      html.open("li").text(ValueText.count(such.size(), "rule") + " ");
      VerdictMark.write(html, verdict);
      if (verdict != Verdict.HELD) {
        html.text(": ");
        for (int i = 0; i < Math.min(named, such.size()); i++) {
          html.text(i == 0 ? "" : ", ").open("a", "class", "id", "href", "#" + Links.anchor(such.get(i).rule()))
              .text(such.get(i).rule().id()).close();
        }
        html.text(such.size() > named ? " and " + (such.size() - named) + " more" : "");
      }
      html.end();
    }
    html.end();
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
