package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.keep.KeptFiles;
import dev.pawl.cli.keep.KeptTrace;
import dev.pawl.run.control.LogicSettings;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/**
 * How logic under test is driven, and where what was judged is kept.
 *
 * @param logic its files
 * @param ride file of the ride that closes the loop; empty for recorded traces
 * @param keep where what was judged is kept
 * @param settings how the program runs
 */
public record ReplayOptions(List<String> logic, Optional<String> ride, Optional<KeptTrace> keep,
    LogicSettings settings) {

  public static final Option<Optional<String>> RIDE = Option.text("FILE",
      "Close the loop: trains of the ride that this file describes move as the logic commands. Then scenarios are named"
          + " instead of traces, from the folder 'scenarios' beside it or by their files; all of the folder if none"
          + " is.", "--ride");
  public static final Option<Optional<String>> KEEP = Option.text("FILE",
      "Keep what was judged as a CSV trace, in a file that is not there yet.", "--keep");
  static final Option<Boolean> REPLACE = Option.flag(
      "The file of --keep may be there, if pawl kept it; its place is taken when the new one is whole.", "--replace");

  /** The options of a command that checks what logic does. */
  public static final List<Option<?>> ALL = Syntax.all(ProgramOptions.ALL, List.of(RIDE, KEEP, REPLACE));

  /** Reads the options out of the words. */
  public static ReplayOptions of(ParseResult words) {
    List<String> logic = ProgramOptions.files(words);
    LogicSettings settings = ProgramOptions.settings(words);
    return new ReplayOptions(logic, RIDE.of(words), keep(words), settings);
  }

  /** Where what is judged is kept: no file that the run reads, and none that a report takes the place of. */
  public static Optional<KeptTrace> keep(ParseResult words) {
    Optional<String> file = KEEP.of(words);
    boolean replace = REPLACE.of(words);
    if (replace && file.isEmpty()) {
      throw new CommandException("--replace: say with --keep which file's place is taken");
    }
    RunInputs.of(words).refuse(file);
    Optional<String> out = ReportOptions.OUT.of(words);
    if (file.isPresent() && out.isPresent() && whole(file.get()).startsWith(whole(out.get()))) {
      throw KeptFiles.refusal(Path.of(file.get()),
          "lies in the folder of --out, which holds the report and nothing else; name a file elsewhere");
    }
    return file.map(name -> KeptTrace.of(name, replace));
  }

  private static Path whole(String path) {
    return Path.of(path).toAbsolutePath().normalize();
  }

  /** The same for other logic. */
  public ReplayOptions withLogic(String file) {
    return new ReplayOptions(List.of(file), ride, keep, settings);
  }
}
