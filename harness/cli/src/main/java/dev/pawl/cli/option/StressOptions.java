package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/**
 * What {@code pawl stress} was asked for.
 *
 * @param ride file of the ride
 * @param scenario what happens without a fault
 * @param runs how many runs
 * @param mistakes how many mistakes are planted in the logic; 0 where faults are put into runs instead
 * @param findings how many hazards are made small
 * @param folder where it keeps what it finds
 */
public record StressOptions(RuleOptions rules, List<String> logic, String ride, String scenario, int runs,
    int mistakes, int findings,
    Optional<String> folder, int jobs, boolean quiet) {

  private static final int USUAL_RUNS = 1000;
  private static final int USUAL_RUNS_OF_MISTAKE = 20;
  private static final int MOST_RUNS = 10_000_000;

  private static final Option<Optional<String>> RUNS = Option.text("N", "Make so many runs; usual is " + USUAL_RUNS
      + ", and with --mistakes " + USUAL_RUNS_OF_MISTAKE + " with each mistake.", "--runs");
  private static final Option<Integer> MISTAKES = Option.text("N",
      "Plant so many mistakes in the logic instead, one at a"
      + " time, and say which rules notice each: in the scenarios beside the ride that last up to 20 min, and in runs"
      + " with faults.", "--mistakes").as(Meaning.number(0, 1, MOST_RUNS));
  private static final Option<Integer> FINDINGS = ReportOptions.FINDINGS.withHelp("Make the run of so many hazards as"
      + " small as it gets, those that no rule noticed first; usual is " + ReportOptions.USUAL_FINDINGS + ".");
  private static final Option<Optional<String>> OUT = ReportOptions.OUT.withHelp("Keep what comes of it in this folder:"
      + " the report as text, page and table, and for each hazard a scenario and a trace. It is new or empty, or holds"
      + " the same campaign, which then goes on where it was ended.");

  /** The options of the command. */
  public static final List<Option<?>> ALL = Syntax.all(List.of(RuleOptions.RULES, RuleOptions.USE_FROM),
      ProgramOptions.ALL, List.of(ReplayOptions.RIDE.withHelp("The ride whose trains move as the logic commands."),
          RUNS, MISTAKES,
          OUT, FINDINGS, CheckOptions.JOBS, ReportOptions.QUIET));

  /** Those of them that say what a campaign is; the others say where and how it is made. */
  public static final List<Option<?>> OF_CAMPAIGN = Syntax.all(List.of(RuleOptions.RULES, RuleOptions.USE_FROM),
      ProgramOptions.ALL, List.of(ReplayOptions.RIDE.withHelp("The ride whose trains move as the logic commands."),
          RUNS));

  /** Reads the options out of the words. */
  public static StressOptions of(ParseResult words) {
    return of(words, RuleOptions.others(words));
  }

  /** The same, where some words are no scenarios. */
  public static StressOptions of(ParseResult words, List<String> scenarios) {
    RuleOptions rules = RuleOptions.of(words);
    String ride =
        ReplayOptions.RIDE.of(words).orElseThrow(() -> new CommandException("no ride: name its file with --ride"
        + RuleOptions.howTo(words)));
    if (scenarios.size() != 1) {
      throw new CommandException((scenarios.isEmpty() ? "no scenario: name the one" : scenarios.size()
          + " scenarios are named; name one") + " that faults are put into" + RuleOptions.howTo(words));
    }
    int mistakes = MISTAKES.of(words);
    int runs = Meaning.number(mistakes > 0 ? USUAL_RUNS_OF_MISTAKE : USUAL_RUNS, 1, MOST_RUNS).of(RUNS.name(), RUNS.of(
        words));
    return new StressOptions(rules, ProgramOptions.files(words), ride, scenarios.get(0), runs, mistakes, FINDINGS.of(
        words), OUT.of(words), CheckOptions.JOBS.of(words), ReportOptions.QUIET.of(words));
  }
}
