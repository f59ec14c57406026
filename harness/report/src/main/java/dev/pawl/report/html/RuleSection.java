package dev.pawl.report.html;

import dev.pawl.engine.MarginSpread;
import dev.pawl.engine.Tried;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.explain.Explanation;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Requirement;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.Term;
import dev.pawl.report.collect.RuleMargins;
import dev.pawl.report.model.FileName;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.RuleOverview.InTrace;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.picture.PictureBudget;
import dev.pawl.report.words.EvidenceCommand;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.List;

/** One rule: what it asks and why, what its names stand for, what tried it, how near it came, and what was found. */
final class RuleSection {

  private static final int MOST_TRACES = 4;

  private final Markup html;
  private final Report report;
  private final RuleOverview overview;
  private final Rule rule;
  private final String id;
  private final PictureBudget.Share share;

  /**
   * A section on one rule.
   *
   * @param share how many findings it shows
   */
  RuleSection(Markup html, Report report, RuleOverview overview, PictureBudget.Share share) {
    this.share = share;
    this.html = html;
    this.report = report;
    this.overview = overview;
    this.rule = overview.rule();
    this.id = Links.anchor(rule);
  }

  void write() {
    html.open("article", "id", id, "data-verdict", overview.verdict().label(), "aria-labelledby", id + "-title");
    html.open("h2", "id", id + "-title").open("span", "class", "id").text(rule.id()).close().text(" " + rule.title())
        .end();
    html.open("div", "class", "side");
    VerdictMark.write(html, overview.verdict());
    html.element("p", GlanceSection.severity(rule), "class", "severity");
    html.element("p", FindingWords.spread(overview), "class", "spread");
    serves();
    html.end().open("div", "class", "main");
    asks();
    terms();
    trials();
    margins();
    traces();
    findings();
    html.close().end();
  }

  private void serves() {
    for (int i = 0; i < report.book().requirements().size(); i++) {
      Requirement requirement = report.book().requirements().get(i);
      if (rule.satisfies().contains(requirement.id())) {
        html.open("p").text("Serves ").element("a", requirement.id(), "class", "id", "href", Links.REPORT + "#"
            + Links.requirementAnchor(i)).end();
      }
    }
  }

  private void asks() {
    html.element("h3", "What it asks");
    List<String> written = new ArrayList<>(List.of(rule.text()));
    rule.proof().trials().stream().map(Proof.Trial::text).forEach(written::add);
    if (!rule.proof().untried().isEmpty()) {
      written.add("untried \"" + rule.proof().untried() + "\"");
    }
    html.element("pre", String.join("\n", written), "class", "required");
    html.element("p", rule.position().file() + ":" + rule.position().line(), "class", "code place");
    explained().words().forEach(sentence -> html.element("p", sentence));
    html.element("p", "Basis: " + HandbookWriter.basis(rule) + ". "
        + (rule.resolution() == 0 ? "Logged times are taken as exact."
            : "A logged time may be off by " + TimeText.duration(rule.resolution()) + "."), "class", "basis");
  }

  private Explanation explained() {
    return new RuleExplainer(report.book()).explain(rule);
  }

  private void terms() {
    if (rule.terms().isEmpty()) {
      return;
    }
    html.element("h3", "What its names stand for");
    html.open("ul", "class", "plain");
    for (Term term : rule.terms()) {
      boolean otherwise = !term.isConstant() || !term.value().equals(term.written());
      html.open("li").open("span", "class", "code").text(term.name() + (term.isConstant() ? " = " + term.value() : ""))
          .close().text(otherwise ? ", written " : "");
      if (otherwise) {
        html.open("span", "class", "code").text(term.written()).close();
      }
      html.text(" (" + FileName.of(term.position().file()) + ":" + term.position().line() + ")").end();
    }
    html.end();
  }

  private void trials() {
    html.element("h3", "What tried it");
    html.element("p", "Obligations: " + FindingWords.obligations(overview.obligations()) + ".");
    List<Tried> tried = overview.tried();
    if (!tried.isEmpty()) {
      html.open("ul", "class", "plain");
      for (int i = 0; i < tried.size(); i++) {
        int trial = i;
        long traces = overview.results().stream().filter(it -> it.result().seen().tried().get(trial).times() > 0)
            .count();
        html.open("li").open("span", "class", "code").text(rule.proof().trials().get(i).text()).close();
        html.text(": " + FindingWords.times(tried.get(i).times()) + (traces > 0 ? ", in "
            + ValueText.count(traces, "trace") : "")).end();
      }
      html.end();
    } else if (overview.isHeldUntried()) {
      html.element("p", "It does not say what would try it, so that nothing tells a pass from not having been asked.");
    }
    if (overview.verdict() == Verdict.NOT_EXERCISED) {
      explained().exercise().forEach(sentence -> html.element("p", sentence));
    }
  }

  private void margins() {
    RuleMargins margins = RuleMargins.of(overview);
    html.element("h3", "How near it came");
    if (margins.nearestFirst().isEmpty()) {
      html.element("p", "No margin can be stated.");
      return;
    }
    InTrace nearest = margins.nearestFirst().get(0);
    int traces = margins.nearestFirst().size();
    MarginResult least = RuleMargins.margin(nearest);
    html.open("p").text((traces == 1 ? "The margin of one trace: " : "The smallest margin of each of " + traces
        + " traces: the nearest ")).open("span", "class", least.value() < 0 ? "size below" : "size")
            .text(FindingWords.margin(least)).close().text(" in ");
    here(nearest);
    html.text(" at " + TimeText.at(nearest.trace().timeBase(), least.time()));
    if (traces > 1) {
      html.text(", half of them at most " + FindingWords.margin(margins.atMost(50)) + ", the farthest "
          + FindingWords.margin(margins.atMost(100)));
    }
    html.text(".").end();
    if (margins.allowed().isPresent()) {
      html.element("p", "Allowed: " + GlanceSection.allowed(margins) + ". Met by less than a tenth of that in "
          + traces(margins.near()) + "; missed in " + traces(margins.nearestFirst().stream()
              .filter(it -> RuleMargins.margin(it).value() < 0).count()) + ".");
    }
    margins.spread().filter(spread -> spread.total() > traces).ifPresent(this::spread);
    if (traces > 1) {
      List<MarginResult> all = margins.nearestFirst().stream().map(RuleMargins::margin).toList();
      new MarginStrip(html, List.of(new MarginStrip.Row("", all)), margins.allowed())
          .write("The margins of " + rule.id() + ", as said above.");
    }
  }

  /** How often it came near, obligation by obligation. */
  private void spread(MarginSpread spread) {
    List<String> parts = new ArrayList<>();
    part(parts, "nothing", overview.obligations().missed());
    part(parts, "less than a tenth", spread.belowTenth());
    part(parts, "less than a quarter", spread.belowQuarter());
    part(parts, "less than half", spread.belowHalf());
    part(parts, "half or more", spread.more());
    html.element("p", "Left of what is allowed, obligation by obligation: " + String.join(", ", parts) + ".");
  }

  private static void part(List<String> parts, String left, long count) {
    if (count > 0) {
      parts.add(left + " in " + ValueText.count(count));
    }
  }

  private static String traces(long count) {
    return count == 0 ? "no trace" : ValueText.count(count, "trace");
  }

  /** The trace's file name, which leads to its section on this page. */
  private void here(InTrace each) {
    html.open("a", "href", "#" + Links.traceAnchor(each.number())).text(FileName.of(each.trace().path())).close();
  }

  private void traces() {
    html.element("h3", "In which traces").open("ul", "class", "plain");
    for (Verdict verdict : VerdictMark.ORDER) {
      List<InTrace> such = overview.results().stream().filter(it -> it.result().verdict() == verdict).toList();
      if (such.isEmpty()) {
        continue;
      }
      html.open("li");
      VerdictMark.write(html, verdict);
      html.text(" in " + ValueText.count(such.size(), "trace") + ": ");
      for (int i = 0; i < Math.min(MOST_TRACES, such.size()); i++) {
        html.text(i == 0 ? "" : ", ");
        here(such.get(i));
      }
      html.text(such.size() > MOST_TRACES ? " and " + ValueText.count(such.size() - MOST_TRACES)
          + " more, all in report.json" : "").end();
      if (verdict == Verdict.NOT_EXERCISED || verdict == Verdict.UNDECIDED) {
        reasons(such, verdict);
      }
    }
    html.end();
  }

  private void reasons(List<InTrace> such, Verdict verdict) {
    List<String> reasons = such.stream().map(it -> verdict == Verdict.UNDECIDED
        ? FindingWords.undecidedReason(it.result()) : FindingWords.notExercisedReason(it.result()))
        .filter(it -> !it.isEmpty()).distinct().toList();
    if (!reasons.isEmpty()) {
      html.element("li", "because " + reasons.get(0) + (reasons.size() > 1 ? "; other traces have "
          + ValueText.count(reasons.size() - 1, "other reason") : ""), "class", "where");
    }
  }

  private void findings() {
    boolean broken = overview.verdict() == Verdict.BROKEN;
    List<InTrace> behind = overview.results().stream().filter(it -> !kept(it.result(), broken).isEmpty()).toList();
    long total = broken ? overview.obligations().missed() : overview.obligations().undecided();
    if (total == 0) {
      return;
    }
    html.element("h3", broken ? "What broke it" : "What leaves it undecided");
    int of = behind.size() > 2 ? PictureBudget.MOST_OF_A_TRACE : share.shown();
    int shown = 0;
    int named = 0;
    for (InTrace each : behind) {
      List<FindingResult> findings = kept(each.result(), broken);
      int here = Math.min(Math.min(of, findings.size()), share.shown() - shown);
      if (here > 0) {
        remarks(each);
      }
      for (int i = 0; i < here; i++) {
        new FindingView(html, rule, each.trace(), each.number()).write(findings.get(i), ++shown);
      }
    }
    List<String> rest = new ArrayList<>();
    int left = shown;
    for (InTrace each : behind) {
      List<FindingResult> findings = kept(each.result(), broken);
      int skipped = Math.min(Math.min(of, findings.size()), left);
      left -= skipped;
      for (FindingResult finding : findings.subList(skipped, findings.size())) {
        if (named < share.named()) {
          named++;
          rest.add(FileName.of(each.trace().path()) + ": " + FindingWords.sentence(rule, finding, each.trace()
              .timeBase()));
        }
      }
    }
    if (!rest.isEmpty()) {
      html.element("h4", "Further findings").open("ul", "class", "plain");
      rest.forEach(line -> html.element("li", line));
      html.end();
    }
    if (total > shown + named && !behind.isEmpty()) {
      html.open("p", "class", "notice").text(ValueText.count(total - shown - named) + " more of the "
          + ValueText.count(total) + " are counted, but not shown here. To see those of a trace: ")
          .open("span", "class", "code").text(EvidenceCommand.of(report, behind.get(behind.size() - 1).trace()))
          .close().end();
    }
  }

  private void remarks(InTrace each) {
    if (each.result().verdict() == Verdict.UNDECIDED) {
      FindingWords.departures(each.result().seen(), each.trace().timeBase()).forEach(it -> html.element("p",
          Character.toUpperCase(it.charAt(0)) + it.substring(1) + "."));
    }
    FindingWords.wrongCounts(each.result().wrongCounts(), each.trace().timeBase()).forEach(it -> html.element("p",
        FileName.of(each.trace().path()) + ": but " + it + "."));
  }

  private static List<FindingResult> kept(RuleResult result, boolean broken) {
    return broken ? result.broken() : result.doubtful();
  }
}
