package dev.pawl.report.text;

import dev.pawl.engine.Verdict;
import dev.pawl.grammar.source.Legible;
import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.Review;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.DecisionWords;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.TruthWords;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * The report as text: per trace what broke and why, what shows nothing, what is undecided, the margins, and what
 * reading met.
 */
public final class TextReport {

  private final Style style;
  private final int findings;
  private final Page page;
  private final RuleBlock ruleBlock;

  private TextReport(Style style, int findings) {
    this.style = style;
    this.findings = findings;
    this.page = new Page(style);
    this.ruleBlock = new RuleBlock(style, findings, page);
  }

  /**
   * One trace's block, ending in a line break.
   *
   * @param findings how many findings of each rule are shown; the rest are counted
   */
  public static String trace(TraceResult trace, Style style, int findings) {
    TextReport report = new TextReport(style, findings);
    report.block(trace);
    return report.page.toString();
  }

  /**
   * One trace's block with no more than the counts, what broke, each with its first finding, and the zones' findings.
   */
  public static String brief(TraceResult trace, Style style) {
    TextReport report = new TextReport(style, 1);
    report.head(trace);
    report.allBroken(trace);
    report.tracking(trace);
    report.page.blank();
    return report.page.toString();
  }

  /** What follows all traces: the sum where there are several, and the cautions. */
  public static String closing(Report report, Style style) {
    TextReport text = new TextReport(style, 0);
    List<RuleOverview> rules = RuleOverview.of(report);
    if (report.traces().size() > 1) {
      text.page.line(style.strong("All " + ValueText.count(report.traces().size()) + " traces: ")
          + text.counts(report));
      text.neverExercised(rules);
    }
    text.heldUntried(rules);
    text.decisions(report);
    report.earlier().ifPresent(earlier -> {
      text.page.line(style.strong("Since " + Legible.of(earlier.report()) + ": ") + earlier.changes().get(0));
      earlier.changes().stream().skip(1).forEach(change -> text.page.line("  " + Legible.of(change)));
    });
    if (report.partial()) {
      text.page.line(style.strong("Partial: the run was interrupted; what was not read is not judged."));
    }
    for (String caution : Cautions.of(report)) {
      text.page.line(style.faint(caution));
    }
    return text.page.toString();
  }

  private void head(TraceResult trace) {
    page.line(style.strong(Legible.of(trace.path())));
    if (!trace.reading().failure().isEmpty()) {
      page.labelled(trace.rules().isEmpty() ? "not read" : "stopped", trace.reading().failure());
    }
    trace.truth().ifPresent(truth -> TruthWords.unnoticed(truth, trace.timeBase()).forEach(line ->
        page.line("  " + style.verdict(Verdict.BROKEN, TruthWords.UNNOTICED.toUpperCase(Locale.ROOT)) + "  "
            + Legible.of(line))));
    if (!trace.rules().isEmpty()) {
      summary(trace);
    }
    trace.truth().ifPresent(truth -> TruthWords.lines(truth, trace.timeBase()).forEach(line ->
        page.line("  " + Legible.of(line))));
  }

  private void allBroken(TraceResult trace) {
    for (RuleResult rule : withVerdict(trace, Verdict.BROKEN)) {
      ruleBlock.broken(rule, trace);
    }
  }

  private void block(TraceResult trace) {
    head(trace);
    if (!trace.rules().isEmpty()) {
      allBroken(trace);
      undecided(trace);
      notExercised(trace);
      watched(trace);
      unconfirmed(trace);
      margins(trace);
      starts(trace);
      tracking(trace);
    }
    reading(trace);
    page.blank();
  }

  private void summary(TraceResult trace) {
    long[] counts = new long[Verdict.values().length];
    for (Verdict verdict : Verdict.values()) {
      counts[verdict.ordinal()] = trace.count(verdict);
    }
    String length = TimeText.duration(trace.end() - trace.start());
    page.line("  " + counts(counts) + style.faint("   " + length + ", " + ValueText.count(trace.events()) + " events"));
    if (trace.partial()) {
      page.line("  " + style.strong("Partial: judged up to " + TimeText.at(trace.timeBase(), trace.end()) + " only."));
    }
  }

  private String counts(Report report) {
    long[] counts = new long[Verdict.values().length];
    for (Verdict verdict : Verdict.values()) {
      counts[verdict.ordinal()] = report.count(verdict);
    }
    return counts(counts) + (report.unjudged() > 0 ? style.strong(", " + FindingWords.unjudged(report.unjudged()))
        : "");
  }

  /** The rules about which a whole run says nothing. */
  private void neverExercised(List<RuleOverview> rules) {
    List<RuleOverview> never = rules.stream().filter(it -> it.verdict() == Verdict.NOT_EXERCISED).toList();
    if (never.isEmpty()) {
      return;
    }
    page.line("  " + style.verdict(Verdict.NOT_EXERCISED, "NEVER EXERCISED")
        + "  the traces together do not put these rules to the test");
    int width = never.stream().mapToInt(it -> it.rule().id().length()).reduce(11, Math::max);
    never.forEach(it -> page.labelled(it.rule().id(), Math.min(width, 30), it.rule().title()));
    page.blank();
  }

  /** The rules whose verdict is held although nobody says what would have tried them. */
  private void heldUntried(List<RuleOverview> rules) {
    List<String> untried = rules.stream().filter(RuleOverview::isHeldUntried).map(it -> it.rule().id()).toList();
    if (!untried.isEmpty()) {
      page.line("  " + style.strong("Held, but perhaps never asked: ") + ValueText.count(untried.size())
          + (untried.size() == 1 ? " rule does" : " rules do") + " not say what would try "
              + (untried.size() == 1 ? "it" : "them") + ", "
          + String.join(", ", untried) + ".");
      page.blank();
    }
  }

  /** What persons accept, what became of that, and who has looked at what. */
  private void decisions(Report report) {
    for (Acceptance acceptance : report.decisions().acceptances()) {
      Acceptance.State state = report.decisions().state(acceptance, report.traces());
      String words = DecisionWords.state(state);
      page.line("  " + (state == Acceptance.State.IN_FORCE ? style.strong(words)
          : style.verdict(Verdict.BROKEN, words.toUpperCase(Locale.ROOT))) + "  " + Legible.of(acceptance.subject())
          + style.faint("  " + Legible.of(acceptance.file()) + ":" + acceptance.line()));
      page.labelled("", DecisionWords.sentence(acceptance, report));
      page.labelled("because", acceptance.reason());
    }
    for (Review review : report.decisions().reviews()) {
      boolean other = report.reviewsOfOthers().contains(review);
      page.line("  " + (other ? style.verdict(Verdict.BROKEN, "REVIEW OF ANOTHER REPORT")
          : style.strong("reviewed")) + "  on " + review.on() + " by " + Legible.of(review.by())
          + style.faint("  " + Legible.of(review.file()) + ":" + review.line()));
      page.labelled("looked at", DecisionWords.looked(review));
      if (other) {
        page.labelled("", DecisionWords.another(review, report));
      }
    }
    if (!report.decisions().isEmpty()) {
      page.blank();
    }
  }

  private String counts(long[] counts) {
    StringBuilder line = new StringBuilder();
    for (Verdict verdict : new Verdict[] {Verdict.BROKEN, Verdict.UNDECIDED, Verdict.NOT_EXERCISED, Verdict.HELD}) {
      String part = counts[verdict.ordinal()] + " " + FindingWords.verdict(verdict);
      line.append(line.isEmpty() ? "" : ", ").append(counts[verdict.ordinal()] > 0 ? style.verdict(verdict, part)
          : part);
    }
    return line.toString();
  }

  private void undecided(TraceResult trace) {
    for (RuleResult rule : withVerdict(trace, Verdict.UNDECIDED)) {
      ruleBlock.undecided(rule, trace);
    }
  }

  private void notExercised(TraceResult trace) {
    List<RuleResult> rules = withVerdict(trace, Verdict.NOT_EXERCISED);
    if (rules.isEmpty()) {
      return;
    }
    page.blank();
    page.line("  " + style.verdict(Verdict.NOT_EXERCISED, "NOT EXERCISED")
        + "  the trace does not put these rules to the test");
    for (RuleResult rule : rules) {
      page.labelled(rule.rule().id(), width(rules), rule.rule().title() + whyNot(rule));
    }
  }

  private static String whyNot(RuleResult rule) {
    String reason = FindingWords.notExercisedReason(rule);
    return reason.isEmpty() ? "" : "  (" + reason + ")";
  }

  /** Rules that held for all they saw, which was not all that could have been: some of their signals never moved. */
  private void watched(TraceResult trace) {
    List<RuleResult> rules = withVerdict(trace, Verdict.HELD).stream()
        .filter(rule -> rule.seen().watched().isPresent() && !rule.seen().still().isEmpty()).toList();
    if (rules.isEmpty()) {
      return;
    }
    page.blank();
    page.line("  " + style.strong("Held by watching only, and not all of it moved"));
    rules.forEach(rule -> page.labelled(rule.rule().id(), width(rules), FindingWords.seen(rule.seen())));
  }

  /** Rules that held, all or part of it on counts of trains that a later passage may still prove wrong. */
  private void unconfirmed(TraceResult trace) {
    List<RuleResult> rules = withVerdict(trace, Verdict.HELD).stream()
        .filter(rule -> rule.seen().unconfirmed() > 0 && FindingWords.hasTrigger(rule.rule())).toList();
    if (rules.isEmpty()) {
      return;
    }
    page.blank();
    page.line("  " + style.strong("Held, but no later passage of trains confirms all of it"));
    rules.forEach(rule -> page.labelled(rule.rule().id(), width(rules), ValueText.count(rule.seen().unconfirmed())
        + " of " + ValueText.count(rule.obligations().met()) + " met"));
  }

  private void starts(TraceResult trace) {
    for (ZoneResult zone : trace.zones()) {
      zone.start().filter(start -> !start.counts()).ifPresent(start -> {
        page.blank();
        page.line("  " + style.strong("ZONE " + Legible.of(zone.name()))
            + "  nobody knows how many trains were in it at first");
        page.labelled("began with", FindingWords.start(zone, start));
      });
    }
  }

  /** The width that holds the identifiers of all these rules. */
  private static int width(List<RuleResult> rules) {
    int width = 11;
    for (RuleResult rule : rules) {
      width = Math.max(width, rule.rule().id().length());
    }
    return Math.min(width, 30);
  }

  private void margins(TraceResult trace) {
    List<RuleResult> rules = new ArrayList<>();
    for (RuleResult rule : trace.rules()) {
      if (rule.margin().isPresent()) {
        rules.add(rule);
      }
    }
    if (rules.isEmpty()) {
      return;
    }
    rules.sort(Comparator.comparing((RuleResult rule) -> unitRank(rule.margin().get()))
        .thenComparing(rule -> rule.margin().get().value()));
    page.blank();
    page.line("  " + style.strong("Margins, smallest first"));
    for (RuleResult rule : rules) {
      MarginResult margin = rule.margin().get();
      page.labelled(rule.rule().id(), width(rules), Page.pad(FindingWords.margin(margin), 16) + "  at "
          + TimeText.at(trace.timeBase(), margin.time())
          + afterTrigger(rule, margin));
    }
  }

  private static String afterTrigger(RuleResult rule, MarginResult margin) {
    return FindingWords.hasTrigger(rule.rule()) && margin.trigger() != margin.time()
        ? ", " + TimeText.duration(margin.time() - margin.trigger()) + " after its trigger" : "";
  }

  private static String unitRank(MarginResult margin) {
    return margin.isTime() ? "" : margin.unit();
  }

  private void tracking(TraceResult trace) {
    for (ZoneResult zone : trace.zones()) {
      if (zone.findingCount() == 0) {
        continue;
      }
      page.blank();
      page.line("  " + style.strong("ZONE " + Legible.of(zone.name())) + "  its count cannot be right, "
          + FindingWords.times(zone.findingCount()));
      page.labelled("may mean", "a missed or chattering sensor, a roll-back, or trains too close");
      int shown = Math.min(findings, zone.findings().size());
      for (ZoneResult.Tracking finding : zone.findings().subList(0, shown)) {
        page.labelled("seen", FindingWords.tracking(finding.kind()) + ", at "
            + TimeText.at(trace.timeBase(), finding.time()));
        ruleBlock.evidence(finding.evidence(), trace);
      }
      if (zone.findingCount() > shown) {
        page.labelled("", "and " + ValueText.count(zone.findingCount() - shown) + " more");
      }
    }
  }

  private void reading(TraceResult trace) {
    Reading reading = trace.reading();
    if (reading.counters().isEmpty() && reading.problems().isEmpty() && trace.overwritten() == 0) {
      return;
    }
    page.blank();
    page.line("  " + style.strong("Reading"));
    for (Reading.Counter counter : reading.counters()) {
      page.labelled("counted", ValueText.count(counter.count()) + " " + counter.label());
    }
    if (trace.overwritten() > 0) {
      page.labelled("counted", FindingWords.overwritten(trace.overwritten()));
    }
    for (Reading.Problem problem : reading.problems()) {
      page.labelled(problem.line() > 0 ? "line " + problem.line() : "", problem.message());
    }
    if (reading.problemCount() > reading.problems().size()) {
      page.labelled("", "and " + ValueText.count(reading.problemCount() - reading.problems().size()) + " more");
    }
  }

  private static List<RuleResult> withVerdict(TraceResult trace, Verdict verdict) {
    List<RuleResult> rules = new ArrayList<>();
    for (RuleResult rule : trace.rules()) {
      if (rule.verdict() == verdict) {
        rules.add(rule);
      }
    }
    return rules;
  }
}
