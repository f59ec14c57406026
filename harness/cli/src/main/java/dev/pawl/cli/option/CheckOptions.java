package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.keep.Asked;
import dev.pawl.run.files.RideFiles;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import picocli.CommandLine.ParseResult;

/**
 * What {@code pawl check}, or another command that checks, was asked for.
 *
 * @param traces traces and folders, or whatever else the command plays
 * @param jobs how many threads may work
 * @param asked all that the command was asked for, word by word
 */
public record CheckOptions(RuleOptions rules, List<String> traces, ReadingOptions reading, ReportOptions report,
    int jobs, Asked asked) {

  private static final int PROCESSORS = Runtime.getRuntime().availableProcessors();
  private static final int MOST_JOBS = 256;

  static final Option<Integer> JOBS = Option.text("N",
      "Work on so many threads; usual is one per processor.", "-j", "--jobs")
      .as(Meaning.number(PROCESSORS, 1, MOST_JOBS));

  /** The options that all commands which check have. */
  public static final List<Option<?>> ALL = List.of(RuleOptions.RULES, RuleOptions.USE_FROM, ReportOptions.OUT,
      ReportOptions.FORMAT, ReadingOptions.BINDINGS, ReadingOptions.TIME_UNIT, ReadingOptions.LENIENT,
      DecisionOptions.DECISIONS, DecisionOptions.ACCEPTED_PASS, ReportOptions.REQUIRE_PROOF, JOBS,
      ReportOptions.FINDINGS, ReportOptions.QUIET);

  /** Options on which it does not depend what is judged. */
  private static final Set<String> APART = Set.of(ReportOptions.OUT.name(), JOBS.name(), ReportOptions.FORMAT.name(),
      ReportOptions.QUIET.name(), ReplayOptions.KEEP.name(), ReplayOptions.REPLACE.name());

  /** The same where nobody wrote a command. */
  public CheckOptions(RuleOptions rules, List<String> traces, ReadingOptions reading, ReportOptions report, int jobs) {
    this(rules, traces, reading, report, jobs, new Asked("", List.of(), List.of(), rules.paths(), traces,
        Optional.empty()));
  }

  /** These files, read as they are. */
  public CheckOptions(List<String> rules, List<String> traces, ReportOptions report) {
    this(new RuleOptions(rules, List.of()), traces, new ReadingOptions(Optional.empty(), Optional.empty(), false),
        report, PROCESSORS);
  }

  /** Reads the options out of the words, of which at least one has to be a trace. */
  public static CheckOptions of(ParseResult words) {
    CheckOptions options = withoutTraces(words);
    if (options.traces().isEmpty()) {
      throw new CommandException("no trace: name at least one after the options" + RuleOptions.howTo(words));
    }
    return options;
  }

  /** The same for commands that can do without a trace. */
  public static CheckOptions withoutTraces(ParseResult words) {
    return new CheckOptions(RuleOptions.of(words), RuleOptions.others(words), ReadingOptions.of(words),
        ReportOptions.of(words), JOBS.of(words));
  }

  /** The same with another folder for the report files. */
  public CheckOptions withOut(Optional<String> folder) {
    return new CheckOptions(rules, traces, reading, report.withOut(folder), jobs, asked);
  }

  private Optional<String> scenarios(ParseResult words, Syntax syntax) {
    boolean rides = syntax.options().contains(ReplayOptions.RIDE) && traces.isEmpty();
    return rides ? ReplayOptions.RIDE.of(words).map(ride -> RideFiles.folder(Path.of(ride)).toString())
        : Optional.empty();
  }

  /** The same without the words in which it was asked for. */
  public CheckOptions unasked() {
    return new CheckOptions(rules, traces, reading, report, jobs);
  }

  /** The same with all that the command was asked for. */
  public CheckOptions asked(ParseResult words, Syntax syntax) {
    Map<Boolean, List<Asked.Setting>> settings = syntax.options().stream()
        .map(option -> new Asked.Setting(option.name(), option.stated(words)))
        .collect(Collectors.partitioningBy(setting -> APART.contains(setting.option())));
    return new CheckOptions(rules, traces, reading, report, jobs, new Asked(words.commandSpec().name(),
        settings.get(false), settings.get(true), rules.paths(), traces, scenarios(words, syntax)));
  }
}
