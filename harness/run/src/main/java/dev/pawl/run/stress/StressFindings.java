package dev.pawl.run.stress;

import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.plant.scenario.ScenarioText;
import dev.pawl.report.model.StrengthReport;
import dev.pawl.report.model.StressReport;
import dev.pawl.report.model.Truth;
import dev.pawl.run.Version;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.function.IntFunction;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** What a campaign, or planted mistakes, came to, as a report has it. */
public final class StressFindings {

  private StressFindings() {}

  /**
   * The report of a campaign.
   *
   * @param file what the scenario of a finding is called, by its place; empty where it is not kept
   * @param ruleFile the same of a rule that was broken, by its name
   */
  public static StressReport of(Campaign campaign, Campaign.Outcome outcome, IntFunction<String> file,
      UnaryOperator<String> ruleFile) {
    RuleBook book = campaign.subject().book();
    Tally tally = outcome.tally();
    int rules = book.rules().size();
    List<StressReport.Hazards> hazards = new ArrayList<>();
    for (dev.pawl.plant.loop.Truth.Kind kind : dev.pawl.plant.loop.Truth.Kind.values()) {
      hazards.add(new StressReport.Hazards(Truth.Kind.valueOf(kind.name()), tally.all().hazards(kind, true), tally.all()
          .hazards(kind, false)));
    }
    List<StressReport.Kind> kinds = new ArrayList<>();
    tally.kinds().forEach((name, of) -> kinds.add(new StressReport.Kind(name, of.runs(), of.hazards(), of.unnoticed(),
        IntStream.range(0, rules).mapToObj(of::broken).toList())));
    List<StressReport.Found> found = new ArrayList<>();
    for (int i = 0; i < outcome.found().size(); i++) {
      Campaign.Small small = outcome.found().get(i);
      found.add(new StressReport.Found(Truth.Kind.valueOf(small.kind().name()), small.noticed(), small.words(),
          steps(small.faults(), book), small.scenario().lasts(), small.count(), small.noticedBy(),
          file.apply(i)));
    }
    List<StressReport.Broken> broken = outcome.broken().stream().map(it -> {
      String rule = book.rules().get(it.rule()).id();
      return new StressReport.Broken(rule, it.byPeople(), steps(it.faults(), book), it.scenario().lasts(), tally.all()
          .broken(it.rule()), ruleFile.apply(rule));
    }).toList();
    StressReport.Counts counts = new StressReport.Counts(tally.all().runs(), tally.scans() * (campaign.subject().step()
        / 1e9), hazards, tally.brokenOnly(), tally.quiet(), new StressReport.Ended(tally.ended(), tally.firstEnd()),
        IntStream.range(0, rules).mapToObj(tally.all()::broken).toList());
    return new StressReport(Version.TEXT, book.ride(), new StressReport.Campaign(campaign.base().title(),
        campaign.seed(), campaign.runs()), book.rules().stream().map(Rule::id).toList(), IntStream.range(0, rules)
            .filter(outcome.faultless()::isBroken).mapToObj(rule -> book.rules().get(rule).id()).toList(), counts,
        kinds, new StressReport.Smallest(found, outcome.sorts(), broken));
  }

  private static List<String> steps(List<Injection> faults, RuleBook book) {
    return faults.stream().flatMap(it -> it.timed().stream()).map(it -> ScenarioText.number(it.at()) + " s "
        + ScenarioText.of(it.doing(), book)).toList();
  }

  /** The report of mistakes. */
  public static StrengthReport of(Strength strength, Strength.Outcome outcome) {
    RuleBook book = strength.subject().book();
    List<StrengthReport.Mistake> mistakes = outcome.planted().stream().map(it -> new StrengthReport.Mistake(
        new StrengthReport.Change(it.kind(), it.file(), it.line(), it.before(), it.after()), it.result().ran(),
        it.result().differed(), Arrays.stream(it.result().noticedBy()).boxed().toList(),
        it.result().lost().stream().mapToObj(rule -> book.rules().get(rule).id()).toList(),
        kinds(it.result().hazards()), kinds(it.result().untold()), it.result().where())).toList();
    return new StrengthReport(Version.TEXT, book.ride(), strength.seed(), outcome.possible(), outcome.planned(), outcome
        .runs(), outcome.seconds(), book.rules().stream().map(Rule::id).toList(), mistakes);
  }

  private static Set<Truth.Kind> kinds(Set<dev.pawl.plant.loop.Truth.Kind> kinds) {
    return kinds.stream().map(kind -> Truth.Kind.valueOf(kind.name())).collect(Collectors.toSet());
  }
}
