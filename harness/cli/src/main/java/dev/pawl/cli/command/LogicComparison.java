package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.ReplayOptions;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.logic.LineWitness;
import dev.pawl.logic.ProgramLine;
import dev.pawl.report.compare.EdgeLog;
import dev.pawl.report.compare.LineChange;
import dev.pawl.report.compare.OutputChanges;
import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.change.ChangedLines;
import dev.pawl.run.change.LineComparison;
import dev.pawl.run.control.LogicController;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import picocli.CommandLine.ParseResult;

/**
 * Two runs side by side.
 *
 * @param before the first run
 * @param after the second run
 * @param rules what changed for rules
 * @param outputs what changed for outputs; empty where only reports are there to compare
 * @param lines what became of the lines by which the programs differ
 * @param hasFailure whether a run failed or came to an early end
 */
public record LogicComparison(ReportDigest before, ReportDigest after, ReportComparison rules,
    List<OutputChanges> outputs, List<LineChange> lines, boolean hasFailure) {

  /** One version of the logic, run. */
  private record Version(String name, Report report, Map<String, EdgeLog> edges) {}

  /** Runs two versions of logic over the same traces or scenarios. */
  static LogicComparison run(ParseResult words, Console console) {
    ReplayOptions replay = ReplayOptions.of(words);
    CheckOptions options = (replay.ride().isPresent() ? CheckOptions.withoutTraces(words) : CheckOptions.of(words))
        .asked(words, new CompareCommand().syntax());
    if (replay.logic().size() != 2) {
      throw new CommandException("--logic: two versions are compared, and " + replay.logic().size()
          + " given; give it twice, before and after");
    }
    if (replay.keep().isPresent()) {
      throw new CommandException("--keep: belongs to pawl replay; a comparison keeps nothing");
    }
    ReplaySetup first = ReplaySetup.of(replay.withLogic(replay.logic().get(0)), console);
    ReplaySetup second = ReplaySetup.of(replay.withLogic(replay.logic().get(1)), console);
    ChangedLines changed = ChangedLines.of(first.files(), second.files());
    LineComparison lines = new LineComparison(changed);
    Version before = run(first, "before", changed.watchedBefore(), lines::before, options);
    Version after = run(second, "after", changed.watchedAfter(), lines::after, options);
    RuleBook book = options.rules().load(console).book();
    List<OutputChanges> outputs = new ArrayList<>();
    for (TraceResult trace : after.report().traces()) {
      if (before.edges().containsKey(trace.path()) && after.edges().containsKey(trace.path())) {
        outputs.addAll(OutputChanges.of(trace.path(), trace.timeBase(), book, before.edges().get(trace.path()),
            after.edges().get(trace.path())));
      }
    }
    ReportDigest earlier = ReportDigest.of(before.name(), before.report());
    ReportDigest later = ReportDigest.of(after.name(), after.report());
    return new LogicComparison(earlier, later, ReportComparison.of(earlier, later), outputs,
        lines.over(after.report().traces()), before.report().hasFailure() || after.report().hasFailure());
  }

  private static Version run(ReplaySetup setup, String side, List<ProgramLine> watched,
      Function<String, LineWitness> lines, CheckOptions options) {
    Map<String, EdgeLog> edges = new ConcurrentHashMap<>();
    Console console = setup.console();
    String file = setup.options().logic().get(0);
    CheckOptions own = options.withOut(options.report().out().map(folder -> Path.of(folder, side).toString()));
    try (CheckJob job = CheckJob.begin(own, console)) {
      LogicController controller = setup.controller(job.rules(), job.bindings())
          .withWitness((source, judge) -> edges.computeIfAbsent(source,
              unused -> new EdgeLog(job.rules().book(), judge)))
          .withLines(watched, lines);
      Report report = job.judge(controller, setup.sources(job, own.traces()), result -> {
        if (!result.reading().failure().isEmpty()) {
          console.err().println("pawl: " + file + " over " + result.path() + ": " + result.reading().failure());
        }
      });
      return new Version(file, report, edges);
    }
  }
}
