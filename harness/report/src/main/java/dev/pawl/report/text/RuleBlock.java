package dev.pawl.report.text;

import dev.pawl.grammar.source.Legible;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What is said of one rule: its verdict, what it requires, its findings, and the events behind each. */
final class RuleBlock {

  private final Style style;
  private final int findings;
  private final Page page;

  /** Blocks that show so many findings, put on a page. */
  RuleBlock(Style style, int findings, Page page) {
    this.style = style;
    this.findings = findings;
    this.page = page;
  }

  /** A rule that was broken: what it requires, and each break with its evidence. */
  void broken(RuleResult rule, TraceResult trace) {
    head(rule);
    int shown = Math.min(findings, rule.broken().size());
    each(rule, rule.broken().subList(0, shown), "break", trace);
    if (rule.obligations().missed() > shown) {
      page.labelled("", "and " + ValueText.count(rule.obligations().missed() - shown) + " more");
    }
    wrongCounts(rule, trace);
  }

  /** A rule that could not be decided, and why. */
  void undecided(RuleResult rule, TraceResult trace) {
    head(rule);
    page.labelled("reason", FindingWords.undecidedReason(rule));
    FindingWords.departures(rule.seen(), trace.timeBase()).forEach(sentence -> page.labelled("since", sentence));
    wrongCounts(rule, trace);
    each(rule, rule.doubtful().subList(0, Math.min(findings, rule.doubtful().size())), "finding", trace);
  }

  private void head(RuleResult rule) {
    page.blank();
    heading(rule);
    required(rule);
    page.labelled("obligations", FindingWords.obligations(rule.obligations()));
  }

  private void each(RuleResult rule, List<FindingResult> shown, String label, TraceResult trace) {
    for (FindingResult finding : shown) {
      if (FindingWords.hasTrigger(rule.rule())) {
        page.labelled("trigger", TimeText.at(trace.timeBase(), finding.trigger()));
      }
      page.labelled(label, FindingWords.sentence(rule.rule(), finding, trace.timeBase()));
      evidence(finding.evidence(), trace);
    }
  }

  private void wrongCounts(RuleResult rule, TraceResult trace) {
    FindingWords.wrongCounts(rule.wrongCounts(), trace.timeBase()).forEach(sentence -> page.labelled("but", sentence));
  }

  private void required(RuleResult rule) {
    page.labelled("required", rule.rule().text() + "  (" + rule.rule().position().file() + ":"
        + rule.rule().position().line()
        + ")");
  }

  private void heading(RuleResult rule) {
    String verdict = FindingWords.verdict(rule.verdict()).toUpperCase(Locale.ROOT);
    page.line("  " + style.verdict(rule.verdict(), verdict) + "  " + style.strong(Legible.of(rule.rule().id())) + "  "
        + Legible.of(rule.rule().title()) + style.faint("  " + rule.rule().severity().name().toLowerCase(Locale.ROOT)));
  }

  /** The events behind a finding; one that stands behind both trigger and break is said once. */
  void evidence(List<EvidenceResult> all, TraceResult trace) {
    List<EvidenceResult> events = new ArrayList<>();
    for (EvidenceResult event : all) {
      if (events.stream().noneMatch(event::isSameEventAs)) {
        events.add(event);
      }
    }
    int signals = 0;
    int times = 0;
    for (EvidenceResult event : events) {
      signals = Math.max(signals, FindingWords.became(event, trace).length());
      times = Math.max(times, TimeText.at(trace.timeBase(), event.time()).length());
    }
    String label = "because";
    for (EvidenceResult event : events) {
      String value = Page.pad(FindingWords.became(event, trace), Math.min(signals, 44));
      String at = TimeText.at(trace.timeBase(), event.time());
      page.labelled(label, event.wasLogged() ? value + "  at " + Page.pad(at, times) + "  " + event.shortPlace()
          : value);
      event.writtenBy().ifPresent(place -> page.labelled("", "  " + place.text()));
      label = "";
    }
  }
}
