package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.option.FleetOptions;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.cli.option.StressOptions;
import dev.pawl.cli.option.Syntax;
import java.util.List;
import java.util.ServiceLoader;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.ParseResult;

/** {@code pawl fleet}: what is too much for one machine, handed over to where Flink is. */
public final class FleetCommand implements Command {

  private static final String ARCHIVE = "archive";
  private static final String CAMPAIGN = "campaign";

  private static final List<Option<?>> ARCHIVE_OPTIONS = Syntax.all(FleetOptions.ALL, FleetOptions.OF_ARCHIVE);
  private static final Set<String> OF_ARCHIVE = names(ARCHIVE_OPTIONS);
  private static final Set<String> OF_CAMPAIGN = names(Syntax.all(FleetOptions.ALL, StressOptions.OF_CAMPAIGN));

  private final Supplier<Fleet> fleet;

  /** The command where the fleet is found beside pawl. */
  public FleetCommand() {
    this(FleetCommand::beside);
  }

  /** The command of a fleet that is there. */
  public FleetCommand(Fleet fleet) {
    this(() -> fleet);
  }

  private FleetCommand(Supplier<Fleet> fleet) {
    this.fleet = fleet;
  }

  private static Set<String> names(List<Option<?>> options) {
    return options.stream().map(Option::name).collect(Collectors.toSet());
  }

  @Override
  public Syntax syntax() {
    return Syntax.of(Syntax.all(ARCHIVE_OPTIONS, StressOptions.OF_CAMPAIGN), Operands.any("JOB",
        "archive MANIFEST: a table says which ride, rules, bindings and session each trace belongs to. campaign"
            + " SCENARIO: the runs of 'pawl stress', with its options."),
        "Judges an archive of sessions on many slots, of this process, of worker processes or of a cluster of Apache"
            + " Flink. Each session is judged by one slot; what they come to is to the byte what 'pawl check' says of"
            + " them. A session that cannot be read is a result.",
        "Written are a report of each ride, tables with a row for each rule and session, and a summary: margins that"
            + " get less from month to month, verdicts that appear, sessions unlike the others.",
        "Of a campaign the same comes as of 'pawl stress', whose help says what each option means. All machines that"
            + " work on it must see its files under the same paths.",
        "Exit status: 0 nothing broken, 1 a rule broken, 2 wrong input or command, or a session that could not be"
            + " judged. Of a campaign: 0 every hazard was noticed by a rule, 1 one was not.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    List<String> operands = Operands.of(words);
    String job = operands.isEmpty() ? "" : operands.get(0);
    if (job.equals(ARCHIVE) && operands.size() == 2) {
      CommandLines.refuse(words, "an archive takes it from its manifest; leave it out", OF_ARCHIVE);
      FleetOptions options = FleetOptions.of(words);
      return fleet.get().archive(operands.get(1), options, console);
    } else if (job.equals(CAMPAIGN)) {
      CommandLines.refuse(words, "a campaign reads no traces; leave it out", OF_CAMPAIGN);
      FleetOptions options = FleetOptions.of(words);
      Fleet here = fleet.get();
      return here.campaign(campaign(words, console), words.originalArgs(), options, console);
    }
    throw new CommandException("say what the fleet is to do: pawl fleet archive MANIFEST --out DIR, or pawl fleet"
        + " campaign --rules PATH --logic FILE --ride FILE --out DIR SCENARIO ('pawl fleet --help' shows how)");
  }

  /** Reads a campaign where its runs are made. */
  public static StressSetup campaign(List<String> words, Console console) {
    return campaign(new CommandLine(new FleetCommand().syntax().spec("pawl fleet")).parseArgs(words.toArray(
        String[]::new)), console);
  }

  private static StressSetup campaign(ParseResult words, Console console) {
    List<String> scenarios = RuleOptions.others(words);
    return StressSetup.read(StressOptions.of(words, scenarios.subList(1, scenarios.size())), words, console);
  }

  private static Fleet beside() {
    return ServiceLoader.load(Fleet.class).findFirst().orElseThrow(() -> new CommandException("a fleet is an archive"
        + " of its own and is not here: unpack pawl-fleet-VERSION.zip over the folder of pawl"));
  }
}
