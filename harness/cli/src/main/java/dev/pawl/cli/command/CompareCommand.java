package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.KeptReport;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.ProgramOptions;
import dev.pawl.cli.option.ReplayOptions;
import dev.pawl.cli.option.ReportOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.cli.option.TimeSpan;
import dev.pawl.report.compare.EdgeChange;
import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.html.ComparisonPage;
import dev.pawl.report.json.JsonComparisonWriter;
import dev.pawl.report.text.ComparisonText;
import dev.pawl.report.text.LineChangesText;
import dev.pawl.report.text.OutputChangesText;
import dev.pawl.report.text.Style;
import dev.pawl.run.files.FileTrouble;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import picocli.CommandLine.ParseResult;

/**
 * {@code pawl compare}: what changed for every rule and margin between two reports, or between two versions of logic.
 */
public final class CompareCommand implements Command {

  /** Edges of each output in the text; the JSON has all. */
  private static final int EDGES_IN_TEXT = 20;
  private static final String PAGE = "comparison.html";

  private static final Option<Optional<Duration>> STRICT = Option.text("TIME",
      "With --logic: exit status 1 too if an edge of an output is new, or moved by more than this time, such as 10 ms.",
      "--strict").as(TimeSpan::optional);

  @Override
  public Syntax syntax() {
    return Syntax.of(Syntax.all(CheckOptions.ALL, List.of(STRICT), ReplayOptions.ALL),
        Operands.any("TRACE", "Two reports; with --logic recorded traces, or with --ride names of scenarios."),
        "What a change did to every rule and margin: verdicts, obligations and margins that differ; and of two reports"
            + " what the rules themselves ask otherwise: limits, severity, resolution, trials, zones, basis.",
        "pawl compare BEFORE.json AFTER.json compares two reports; each may also be the folder of --out. With --out DIR"
            + " it writes " + PAGE + " there too, with the margins that moved, before and after on one axis.",
        "pawl compare --rules PATH --logic BEFORE.st --logic AFTER.st TRACE replays two versions of logic, of one file"
            + " each, and says also which edges of the outputs moved and by how much, and of each changed line of the"
            + " program whether it ever ran and ever came to something else.",
        "Exit status: 1 if AFTER shows less than BEFORE: a rule is broken, undecided or no longer exercised that was"
            + " not, or is gone, or a trace is, or an edge of an output vanished; or if a rule asks for less than"
            + " before, or was changed so that a person has to say whether it does; 2 if something cannot be read or"
            + " run; else 0.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    boolean json = ReportOptions.FORMAT.of(words);
    if (ProgramOptions.LOGIC.isGiven(words)) {
      LogicComparison compared = LogicComparison.run(words, console);
      say(compared, json, console);
      keep(compared, ReportOptions.OUT.of(words));
      return compared.hasFailure() ? ExitStatus.WRONG_INPUT : status(compared, STRICT.of(words));
    }
    List<String> paths = Operands.of(words);
    if (paths.size() != 2) {
      throw new CommandException("two reports are compared, and " + (paths.isEmpty() ? "none is" : paths.size()
          + (paths.size() == 1 ? " is" : " are"))
          + " named; name BEFORE.json and AFTER.json ('pawl compare --help' shows how)");
    }
    CommandLines.refuse(words,
        "two reports are compared as they are; this belongs to a comparison of logic, with --logic",
        Set.of(ReportOptions.FORMAT.name(), ReportOptions.OUT.name()));
    ReportDigest before = KeptReport.read(paths.get(0)).digest();
    ReportDigest after = KeptReport.read(paths.get(1)).digest();
    LogicComparison compared = new LogicComparison(before, after, ReportComparison.of(before, after), List.of(),
        List.of(), false);
    say(compared, json, console);
    keep(compared, ReportOptions.OUT.of(words));
    return status(compared, Optional.empty());
  }

  private static int status(LogicComparison compared, Optional<Duration> strict) {
    boolean vanished = compared.outputs().stream().anyMatch(output -> output.count(EdgeChange.Kind.VANISHED) > 0);
    boolean moved = strict.isPresent()
        && compared.outputs().stream().anyMatch(output -> output.hasMoreThan(strict.get().toNanos()));
    return compared.rules().isWorse() || vanished || moved ? ExitStatus.RULE_BROKEN : ExitStatus.NOTHING_BROKEN;
  }

  private static void say(LogicComparison compared, boolean json, Console console) {
    if (json) {
      try {
        JsonComparisonWriter.write(compared.before().name(), compared.after().name(), compared.rules(),
            compared.outputs(), compared.lines(),
            new OutputStreamWriter(console.out(), StandardCharsets.UTF_8));
      } catch (IOException e) {
        throw new CommandException(FileTrouble.message("standard output", e));
      }
      return;
    }
    console.out().print(text(compared, console.style()));
    for (ReportDigest report : List.of(compared.before(), compared.after())) {
      if (report.partial()) {
        console.out().println(report.name() + " is partial: its run was interrupted");
      }
    }
  }

  /** Writes the page; what is there under its name is replaced only where it is such a page. */
  private static void keep(LogicComparison compared, Optional<String> folder) {
    if (folder.isEmpty()) {
      return;
    }
    Path page = Path.of(folder.get(), PAGE);
    try {
      Files.createDirectories(page.getParent());
      if (Files.exists(page) && !Files.readString(page).contains("<title>" + ComparisonPage.TITLE + "</title>")) {
        throw new CommandException("--out: " + page + ": is no comparison that pawl wrote, and stays; name another"
            + " folder");
      }
      try (Writer out = Files.newBufferedWriter(page)) {
        ComparisonPage.write(compared.before().name(), compared.after().name(), compared.rules(), text(compared,
            Style.PLAIN), out);
      }
    } catch (IOException e) {
      throw new CommandException("the comparison cannot be written: " + FileTrouble.message(page.toString(), e));
    }
  }

  private static String text(LogicComparison compared, Style style) {
    return OutputChangesText.of(compared.outputs(), style, EDGES_IN_TEXT) + LineChangesText.of(compared.lines(), style)
        + ComparisonText.of(compared.rules(), style);
  }
}
