package dev.pawl.report.html;

import dev.pawl.engine.Evidence;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FileName;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Picture;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.EdgeWords;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import java.util.List;

/** One finding of a rule: what happened, the picture, what changed next, and the lines of the trace behind it. */
final class FindingView {

  private final Markup html;
  private final Rule rule;
  private final TraceResult trace;
  private final int number;

  /**
   * A view on findings of a rule in a trace.
   *
   * @param number which trace of the report it is, from 0
   */
  FindingView(Markup html, Rule rule, TraceResult trace, int number) {
    this.html = html;
    this.rule = rule;
    this.trace = trace;
    this.number = number;
  }

  /** Writes it as the n-th of its rule. */
  void write(FindingResult finding, int n) {
    String sentence = FindingWords.sentence(rule, finding, trace.timeBase());
    html.open("section", "class", "finding");
    boolean triggered = FindingWords.hasTrigger(rule);
    html.open("h4").text(n + ". ").open("a", "href", "#" + Links.traceAnchor(number))
        .text(FileName.of(trace.path())).close().text((triggered ? ", triggered at " : ", at ")
            + TimeText.at(trace.timeBase(), finding.begin(rule))).end();
    html.open("p").text(Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1) + ".").end();
    finding.picture().ifPresent(picture -> picture(html, picture, MarkedInstants.of(rule, finding), finding
        .evidence(), rule.id() + ": " + sentence));
    finding.picture().ifPresent(picture -> next(html, picture, finding.time()));
    finding.drawings().forEach(drawing -> new DrawingView(html, drawing, trace.timeBase()).write());
    evidence(html, finding.evidence(), trace.timeBase());
    html.end();
  }

  /** A drawn picture, and what a script needs to open it as a timeline. */
  static void picture(Markup html, Picture picture, MarkedInstants marks, List<EvidenceResult> evidence, String said) {
    html.open("figure", "data-timeline", Timeline.of(picture, marks));
    new TimingPicture(html, picture, marks, evidence).write(said);
    html.end();
  }

  static void next(Markup html, Picture picture, long time) {
    List<String> edges = EdgeWords.after(picture.wide().orElse(picture), time);
    html.element("p", edges.isEmpty() ? "What changed next: nothing in this stretch."
        : "What changed next: " + String.join("; ", edges) + ".", "class", "next");
  }

  static void evidence(Markup html, List<EvidenceResult> events, TimeBase base) {
    if (events.isEmpty()) {
      return;
    }
    html.open("div", "class", "wide", "tabindex", "0").open("table", "class", "evidence").open("thead").open("tr");
    for (String column : new String[] {"Behind the", "Signal", "Value", "Since", "Logged in"}) {
      html.element("th", column, "scope", "col");
    }
    html.close().end().open("tbody");
    for (int i = 0; i < events.size(); i++) {
      EvidenceResult event = events.get(i);
      if (events.subList(0, i).stream().anyMatch(event::isSameEventAs)) {
        continue;
      }
      boolean both = events.subList(i + 1, events.size()).stream().anyMatch(event::isSameEventAs);
      html.open("tr").element("td", both ? "trigger and break" : event.moment() == Evidence.Moment.TRIGGER ? "trigger"
          : "break");
      html.element("td", event.signal(), "class", "code").element("td", event.value(), "class", "code");
      html.element("td", event.wasLogged() ? TimeText.at(base, event.time()) : "never logged by then");
      html.open("td", "class", "code").text(event.wasLogged() ? event.shortPlace() : "");
      event.writtenBy().ifPresent(place -> html.element("pre", place.text()));
      html.close().end();
    }
    html.close().close().end();
  }
}
