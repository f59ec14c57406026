package dev.pawl.report.html;

import dev.pawl.report.model.FileName;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.Symptom;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.List;

/** What went wrong in each trace in the order in which it did, over all rules and zones: the first symptom first. */
final class SymptomSection {

  private static final int MOST_ROWS = 120;
  private static final int FEWEST_A_TRACE = 2;

  private final Markup html;
  private final Report report;
  private final List<RuleOverview> rules;

  SymptomSection(Markup html, Report report, List<RuleOverview> rules) {
    this.html = html;
    this.report = report;
    this.rules = rules;
  }

  void write() {
    html.open("section", "aria-labelledby", "symptoms").element("h2", "First symptoms", "id", "symptoms");
    html.element("p", "What broke rules, and counts of trains that cannot be right, in the order in which they happened"
        + " in each trace. What comes first is often the cause of what follows.", "class", "extent");
    long wrong = report.traces().stream().filter(trace -> !Symptom.of(trace).isEmpty()).count();
    if (wrong == 0) {
      html.element("p", "None.").end();
      return;
    }
    int most = (int) Math.max(FEWEST_A_TRACE, MOST_ROWS / wrong);
    html.open("div", "class", "wide", "tabindex", "0").open("table", "class", "symptoms").open("thead").open("tr");
    for (String column : new String[] {"Trace", "At", "Rule or zone", "What happened"}) {
      html.element("th", column, "scope", "col");
    }
    html.close().end();
    for (int i = 0; i < report.traces().size(); i++) {
      List<Symptom> symptoms = Symptom.of(report.traces().get(i));
      if (!symptoms.isEmpty()) {
        trace(report.traces().get(i), i, symptoms, most);
      }
    }
    html.close().close().end();
  }

  private void trace(TraceResult trace, int number, List<Symptom> symptoms, int most) {
    html.open("tbody");
    int shown = Math.min(most, symptoms.size());
    for (int i = 0; i < shown; i++) {
      Symptom symptom = symptoms.get(i);
      html.open("tr").open(i == 0 ? "th" : "td", i == 0 ? new String[] {"scope", "row"} : new String[0]);
      if (i == 0) {
        html.element("a", FileName.of(trace.path()), "href", Links.RULES + "#" + Links.traceAnchor(number));
      }
      html.close().element("td", TimeText.at(trace.timeBase(), symptom.time()), "class", "instant").open("td");
      if (symptom.rule().isPresent()) {
        Links.rule(html, rules.get(symptom.rule().getAsInt()).rule());
      } else {
        html.text(symptom.subject());
      }
      html.close().element("td", symptom.sentence()).end();
    }
    if (symptoms.size() > shown) {
      html.open("tr").element("td", "").element("td", "and " + ValueText.count(symptoms.size() - shown)
          + " more kept; all are counted with their rules", "colspan", "3").end();
    }
    html.end();
  }
}
