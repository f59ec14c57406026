package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/**
 * What {@code pawl fleet} was asked for, but for what its job alone concerns.
 *
 * @param out the folder of what comes of it
 * @param slots how many sessions or runs are worked on at a time; all that a cluster has where it is not said
 * @param workers how many processes of this machine work; 0 for this one alone
 * @param cluster host and port of a cluster that is there
 * @param memory megabytes of each slot of a worker process
 * @param page port of Flink's page; 0 for a free one
 * @param checkpoint seconds from one checkpoint to the next
 * @param reading how the traces of an archive are read
 * @param findings how many findings are kept of each rule and session, or made small of a campaign
 */
public record FleetOptions(String out, Optional<Integer> slots, int workers, int memory, Optional<String> cluster,
    int page, int checkpoint, ReadingOptions reading, int findings, boolean quiet) {

  private static final int MOST_SLOTS = 4096;
  private static final int MOST_WORKERS = 64;
  private static final int USUAL_MEMORY = 256;
  private static final int LEAST_MEMORY = 32;
  private static final int MOST_MEMORY = 1 << 20;
  private static final int HIGHEST_PORT = 65_535;
  private static final int USUAL_CHECKPOINT = 2;
  private static final int LONGEST_CHECKPOINT = 3600;

  private static final Option<Optional<String>> OUT = ReportOptions.OUT.withHelp("Put what comes of it into this"
      + " folder: a report of each ride, tables, a summary. It is new or empty, or holds what pawl fleet left there,"
      + " which is replaced; after a run that was ended, the same command goes on from there.");
  private static final Option<Optional<String>> SLOTS = Option.text("N", "Work on so many sessions at a time; usual is"
      + " one per processor.", "--slots");
  private static final Option<Integer> WORKERS = Option.text("N", "Start so many worker processes on this machine,"
      + " which share the slots, instead of working in this one.", "--workers").as(Meaning.number(0, 1, MOST_WORKERS));
  private static final Option<Integer> MEMORY = Option.text("MB", "Memory of each slot of the worker processes; usual"
      + " is " + USUAL_MEMORY + ".", "--memory").as(Meaning.number(USUAL_MEMORY, LEAST_MEMORY, MOST_MEMORY));
  private static final Option<Optional<String>> CLUSTER = Option.text("HOST:PORT", "Hand the work to the cluster of"
      + " Flink whose page is at this address.", "--cluster");
  private static final Option<Integer> PAGE = Option.text("PORT", "Show Flink's page at this port of this machine;"
      + " usual is any that is free.", "--page").as(Meaning.number(0, 1, HIGHEST_PORT));
  private static final Option<Integer> CHECKPOINT = Option.text("SECONDS", "Note so often what is done: after the end"
      + " of a worker no more than this is done again; usual is " + USUAL_CHECKPOINT + ".", "--checkpoint")
      .as(Meaning.number(USUAL_CHECKPOINT, 1, LONGEST_CHECKPOINT));

  /** The options that concern all jobs. */
  public static final List<Option<?>> ALL = List.of(OUT, SLOTS, WORKERS, MEMORY, CLUSTER, PAGE, CHECKPOINT,
      ReportOptions.FINDINGS, ReportOptions.QUIET);
  /** Those that concern the traces of an archive. */
  public static final List<Option<?>> OF_ARCHIVE = List.of(ReadingOptions.TIME_UNIT, ReadingOptions.LENIENT);

  /**
   * Requires that nothing is said of where it works.
   *
   * @param why where it is said already
   */
  public void requireNoPlace(String why) {
    if (workers > 0 || cluster.isPresent() || page > 0) {
      throw new CommandException("--workers, --cluster and --page: " + why + "; leave them out");
    }
  }

  /** Reads the options out of the words. */
  public static FleetOptions of(ParseResult words) {
    String out = OUT.of(words).orElseThrow(() -> new CommandException("no folder for what comes of it: name one with"
        + " --out" + RuleOptions.howTo(words)));
    Optional<Integer> slots = SLOTS.of(words).map(word -> Meaning.number(1, 1, MOST_SLOTS).of(SLOTS.name(), Optional.of(
        word)));
    Optional<String> cluster = CLUSTER.of(words);
    if (cluster.isPresent() && (WORKERS.isGiven(words) || PAGE.isGiven(words))) {
      throw new CommandException("--cluster: the workers and the page are those of the cluster; leave --workers and"
          + " --page out");
    }
    if (WORKERS.of(words) == 0 && MEMORY.isGiven(words)) {
      throw new CommandException("--memory: says how much the processes of --workers get; in this process"
          + " PAWL_JAVA_OPTIONS says it, and on a cluster its own settings");
    }
    if (cluster.isPresent() && !cluster.get().matches("[^:/]+:\\d{1,5}")) {
      throw new CommandException("--cluster: '" + cluster.get() + "' is not HOST:PORT");
    }
    return new FleetOptions(out, slots, WORKERS.of(words), MEMORY.of(words), cluster, PAGE.of(words),
        CHECKPOINT.of(words), new ReadingOptions(Optional.empty(), ReadingOptions.TIME_UNIT.of(words),
            ReadingOptions.LENIENT.of(words)), ReportOptions.FINDINGS.of(words), ReportOptions.QUIET.of(words));
  }
}
