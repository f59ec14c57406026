package dev.pawl.report.compare;

import dev.pawl.report.compare.ReportDigest.MarginDigest;
import dev.pawl.report.model.Earlier;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.Report;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.List;

/** A comparison with an earlier report in a few sentences, for the first pages of the later one. */
public final class SinceEarlier {

  private static final int MOST = 5;

  private final ReportComparison comparison;
  private final List<String> sentences = new ArrayList<>();

  private SinceEarlier(ReportComparison comparison) {
    this.comparison = comparison;
  }

  /** What changed from the one report to the other. */
  public static Earlier of(ReportDigest earlier, Report report) {
    ReportComparison comparison = ReportComparison.of(earlier, ReportDigest.of("", report));
    return new Earlier(earlier.name(), comparison.isWorse(), sentences(comparison));
  }

  /** A comparison in some sentences, what is worse first. */
  public static List<String> sentences(ReportComparison comparison) {
    SinceEarlier since = new SinceEarlier(comparison);
    since.say();
    return since.sentences;
  }

  private void say() {
    sentences.add(ValueText.count(comparison.changed(), "rule") + " changed in verdict, obligations or margin, "
        + ValueText.count(comparison.unchanged()) + " did not. " + (comparison.isWorse()
            ? "Less is shown than then, or less asked for:" : "No verdict is worse, and nothing is gone or loosened."));
    List<RuleChange> all = comparison.changes();
    list("Newly broken", rules(all, RuleChange.Way.NEWLY_BROKEN));
    list("No longer exercised", rules(all, RuleChange.Way.NO_LONGER_EXERCISED));
    list("Otherwise worse", rules(all, RuleChange.Way.WORSE));
    list("Loosened", asked(StatedChange.Way.LOOSENED));
    list("Changed so that a person has to say whether it asks for less", asked(StatedChange.Way.UNCLEAR));
    list("Dropped", comparison.dropped());
    list("Nearest margins that moved", comparison.shifts().stream().map(shift -> shift.id() + " from "
        + nearest(shift.before()) + " to " + nearest(shift.after())).toList());
    list("Traces only there", comparison.onlyBefore());
    list("Tightened", asked(StatedChange.Way.TIGHTENED));
    list("Traces only here", comparison.onlyAfter());
    list("To be careful with", comparison.differences());
  }

  private static List<String> rules(List<RuleChange> changes, RuleChange.Way way) {
    return changes.stream().filter(change -> change.way() == way).map(change -> change.either().id()).distinct()
        .toList();
  }

  private List<String> asked(StatedChange.Way way) {
    return comparison.stated().stream().filter(stated -> stated.way() == way)
        .map(stated -> stated.rule() + ", " + stated.what() + " from " + stated.before() + " to " + stated.after())
        .toList();
  }

  private static String nearest(List<MarginDigest> margins) {
    MarginDigest first = margins.get(0);
    return FindingWords.margin(new MarginResult(first.value(), first.unit(), 0, 0, first.atMost()));
  }

  private void list(String what, List<String> items) {
    if (!items.isEmpty()) {
      sentences.add(what + ": " + String.join("; ", items.subList(0, Math.min(MOST, items.size())))
          + (items.size() > MOST ? " and " + ValueText.count(items.size() - MOST) + " more" : "") + ".");
    }
  }
}
