package dev.pawl.report.html;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.Verdict;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.List;
import java.util.Locale;

/** One rule that needs attention: what it requires, and each kept finding with its picture and its evidence. */
final class FindingSection {

  private static final int OPEN_AT_FIRST = 3;

  private final Markup html;
  private final TraceResult trace;
  private final String anchor;

  FindingSection(Markup html, TraceResult trace, String anchor) {
    this.html = html;
    this.trace = trace;
    this.anchor = anchor;
  }

  void write(RuleResult rule) {
    String id = anchor + "-r" + rule.rule().index();
    html.open("article", "id", id, "data-verdict", rule.verdict().label(), "aria-labelledby", id + "-title");
    html.open("div", "class", "side");
    VerdictMark.write(html, rule.verdict());
    html.element("p", rule.rule().severity().name().toLowerCase(Locale.ROOT), "class", "severity");
    html.element("p", "Basis: " + (rule.rule().basisIsPractice() ? "common practice, no source" : rule.rule().basis()),
        "class",
        "basis");
    rule.margin().ifPresent(margin -> html.open("p").text("Smallest margin: ")
        .open("span", "class", "size").text(FindingWords.margin(margin)).close().end());
    html.end().open("div", "class", "main");
    html.open("h3", "id", id + "-title").open("span", "class", "id").text(rule.rule().id()).close().text(" "
        + rule.rule().title()).end();
    html.element("pre", rule.rule().text(), "class", "required");
    html.element("p", rule.rule().position().file() + ":" + rule.rule().position().line(), "class", "code place");
    html.element("p", said(rule));
    departures(rule);
    wrongCounts(rule);
    boolean broken = rule.verdict() == Verdict.BROKEN;
    findings(rule, broken ? rule.broken() : rule.doubtful(), broken ? rule.obligations().missed() : rule.undecided());
    html.close().end();
  }

  private static String said(RuleResult rule) {
    String counts = "Obligations: " + FindingWords.obligations(rule.obligations()) + ".";
    return rule.verdict() == Verdict.UNDECIDED ? counts + " Undecided because: " + FindingWords.undecidedReason(rule)
        + "."
        : counts;
  }

  private void findings(RuleResult rule, List<FindingResult> kept, long total) {
    for (int i = 0; i < kept.size(); i++) {
      if (i == OPEN_AT_FIRST) {
        html.open("details").element("summary", (kept.size() - OPEN_AT_FIRST) + " more findings kept");
      }
      finding(rule, kept.get(i), i + 1);
    }
    if (kept.size() > OPEN_AT_FIRST) {
      html.end();
    }
    if (total > kept.size()) {
      html.element("p", ValueText.count(total - kept.size()) + " more of the " + ValueText.count(total)
          + " are counted, but not kept in this report.", "class", "notice");
    }
  }

  private void finding(RuleResult rule, FindingResult finding, int number) {
    String sentence = FindingWords.sentence(rule.rule(), finding, trace.timeBase());
    html.open("section", "class", "finding");
    boolean triggered = FindingWords.hasTrigger(rule.rule());
    html.element("h4", number + ". " + (triggered ? "Triggered at " + TimeText.at(trace.timeBase(), finding.trigger())
        : "At " + TimeText.at(trace.timeBase(), finding.time())));
    html.open("p").text(Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1) + ".").end();
    finding.picture().ifPresent(picture -> {
      html.open("figure");
      new TimingPicture(html, picture, MarkedInstants.of(rule.rule(), finding), finding.evidence())
          .write(rule.rule().id() + ": "
          + sentence);
      html.end();
    });
    evidence(html, finding.evidence(), trace.timeBase());
    html.end();
  }

  private void departures(RuleResult rule) {
    if (rule.verdict() == Verdict.UNDECIDED) {
      FindingWords.departures(rule.seen(), trace.timeBase()).forEach(sentence -> html.element("p",
          Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1) + "."));
    }
  }

  private void wrongCounts(RuleResult rule) {
    for (String sentence : FindingWords.wrongCounts(rule.wrongCounts(), trace.timeBase())) {
      html.element("p", "But " + sentence + ".");
    }
  }

  static void evidence(Markup html, List<EvidenceResult> events, TimeBase base) {
    if (events.isEmpty()) {
      return;
    }
    html.open("div", "class", "wide").open("table", "class", "evidence").open("thead").open("tr");
    for (String column : new String[] {"Behind the", "Signal", "Became", "At", "Logged in"}) {
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
