package dev.pawl.report.text;

import dev.pawl.report.model.StressReport;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** What a campaign of faults showed, as text: hazards that no rule noticed first. */
public final class StressText {

  /** Rules that are named of one kind of fault; the matrix has all. */
  private static final int NAMED_RULES = 8;
  private static final int LABEL = 26;

  private final StressReport report;
  private final Page page;

  private StressText(StressReport report, Style style) {
    this.report = report;
    this.page = new Page(style);
  }

  /** The whole text. */
  public static String of(StressReport report, Style style) {
    StressText text = new StressText(report, style);
    text.write();
    return text.page.toString();
  }

  private void write() {
    StressReport.Campaign campaign = report.campaign();
    StressReport.Counts counts = report.counts();
    page.line(report.ride() + " under faults: " + runs(counts.runs()) + " of '" + campaign.scenario() + "', "
        + TimeText.duration(Math.round(counts.rideTime() * 1e9)) + " of the ride's time, seed " + campaign.seed());
    if (!report.isWhole()) {
      page.line("Ended early: " + ValueText.count(campaign.runs() - counts.runs()) + " runs were not made.");
    }
    if (!report.brokenAnyway().isEmpty()) {
      page.line("Broken without any fault, and so taken to notice nothing: " + String.join(", ", report
          .brokenAnyway()));
    }
    page.blank();
    hazards();
    page.blank();
    found();
    page.blank();
    broken("The smallest run for each rule that was broken though nothing failed: people did it, the logic let them",
        true);
    broken("The smallest run for each rule that was broken as something failed", false);
    kinds();
    page.blank();
    rules();
    page.blank();
    page.line("The trains of these runs were simulated. A model of a ride is not the ride.");
    page.line("Runs without a hazard show nothing of faults that were not drawn.");
    Cautions.ALL.forEach(page::line);
  }

  private static String runs(long count) {
    return ValueText.count(count, "run");
  }

  private void hazards() {
    page.line("What the runs came to");
    for (StressReport.Hazards hazard : report.counts().hazards()) {
      if (hazard.unnoticed() > 0) {
        page.labelled("no rule noticed", LABEL, hazard.kind().words() + ": " + runs(hazard.unnoticed()));
      }
    }
    if (!report.hasUnnoticed()) {
      page.labelled("no rule noticed", LABEL, "nothing: every hazard was noticed by a rule, or there was none");
    }
    for (StressReport.Hazards hazard : report.counts().hazards()) {
      if (hazard.noticed() > 0) {
        page.labelled("a rule noticed", LABEL, hazard.kind().words() + ": " + runs(hazard.noticed()));
      }
    }
    page.labelled("a rule broke, no hazard", LABEL, runs(report.counts().brokenOnly()));
    page.labelled("neither", LABEL, runs(report.counts().quiet()));
    StressReport.Ended ended = report.counts().ended();
    ended.why().ifPresent(why -> page.labelled("ended early", LABEL, runs(ended.runs()) + ", the first because "
        + why));
  }

  private void found() {
    List<StressReport.Found> all = report.smallest().found();
    if (all.isEmpty()) {
      return;
    }
    int sorts = report.smallest().sorts();
    page.line("The smallest run for each hazard" + (all.size() >= sorts ? "" : " (" + all.size() + ", of " + sorts
        + " mixtures of faults and hazards; the others are like these or were not made small)"));
    for (int i = 0; i < all.size(); i++) {
      StressReport.Found found = all.get(i);
      page.labelled(String.valueOf(i + 1), 3, found.words() + (found.noticed() ? "; noticed by "
          + some(found.brokenBy())
          : ". No rule noticed it"));
      page.labelled("", 3, run(found.steps(), found.lasts(), found.file()) + "; the like in " + runs(found.count()));
    }
  }

  private void broken(String heading, boolean byPeople) {
    List<StressReport.Broken> broken = report.smallest().broken().stream().filter(it -> it.byPeople() == byPeople)
        .toList();
    if (broken.isEmpty()) {
      return;
    }
    page.line(heading);
    broken.forEach(it -> page.labelled(it.rule(), LABEL, run(it.steps(), it.lasts(), it.file()) + "; broken in "
        + runs(it.count())));
    page.blank();
  }

  /** What a small run is made of, as text and page say it. */
  public static String run(List<String> steps, double lasts, String file) {
    return (steps.isEmpty() ? "without any fault" : String.join("; ", steps)) + "; ends after " + TimeText.duration(
        Math.round(lasts * 1e9)) + (file.isEmpty() ? "" : "; " + file);
  }

  private static String some(List<String> rules) {
    return String.join(", ", rules.subList(0, Math.min(NAMED_RULES, rules.size()))) + (rules.size() > NAMED_RULES
        ? " and " + (rules.size() - NAMED_RULES) + " more" : "");
  }

  private void kinds() {
    page.line("One fault alone: in how many runs each kind broke which rule");
    for (StressReport.Kind kind : report.kinds()) {
      if (kind.runs() == 0) {
        page.labelled(kind.name(), LABEL, "never drawn alone");
        continue;
      }
      List<Integer> rules = IntStream.range(0,
          report.rules().size()).filter(rule -> kind.broken().get(rule) > 0).boxed()
          .sorted(Comparator.comparingLong(rule -> -kind.broken().get(rule))).toList();
      List<String> words = new ArrayList<>();
      rules.stream().limit(NAMED_RULES).forEach(rule -> words.add(report.rules().get(rule) + " " + kind.broken()
          .get(rule)));
      int unnamed = rules.size() - words.size();
      page.labelled(kind.name(), LABEL, runs(kind.runs()) + (kind.hazards() == 0 ? "" : ", " + hazards(kind))
          + (words.isEmpty() ? "" : ": " + String.join(", ", words)) + (unnamed == 0 ? "" : ", " + unnamed + " more"));
    }
  }

  private static String hazards(StressReport.Kind kind) {
    String noticed = kind.unnoticed() == 0 ? "all" : kind.unnoticed() + " not";
    return ValueText.count(kind.hazards(), "hazard") + ", " + noticed + " noticed";
  }

  private void rules() {
    List<String> never = report.neverBroken();
    page.line(never.isEmpty() ? "Every rule was broken in some run." : never.size() + " of " + report.rules().size()
        + " rules were broken in no run: " + String.join(", ", never));
  }
}
