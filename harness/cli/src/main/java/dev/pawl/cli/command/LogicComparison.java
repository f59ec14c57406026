package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.ReplayOptions;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.compare.EdgeLog;
import dev.pawl.report.compare.OutputChanges;
import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.control.LogicController;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import picocli.CommandLine.ParseResult;

/**
 * Two runs side by side.
 *
 * @param before the first run
 * @param after the second run
 * @param rules what changed for rules
 * @param outputs what changed for outputs; empty where only reports are there to compare
 * @param hasFailure whether a run failed or came to an early end
 */
public record LogicComparison(ReportDigest before, ReportDigest after, ReportComparison rules,
    List<OutputChanges> outputs,
    boolean hasFailure) {

  /** One version of the logic, run. */
  private record Version(String name, Report report, Map<String, EdgeLog> edges) {}

  /** Runs two versions of logic over the same traces or scenarios. */
  static LogicComparison run(ParseResult words, Console console) {
    ReplayOptions replay = ReplayOptions.of(words);
    CheckOptions options = replay.ride().isPresent() ? CheckOptions.withoutTraces(words) : CheckOptions.of(words);
    if (replay.logic().size() != 2) {
      throw new CommandException("--logic: two versions are compared, and " + replay.logic().size()
          + " given; give it twice, before and after");
    }
    if (replay.keep().isPresent()) {
      throw new CommandException("--keep: belongs to pawl replay; a comparison keeps nothing");
    }
    Version before = run(replay.logic().get(0), "before", replay, options, console);
    Version after = run(replay.logic().get(1), "after", replay, options, console);
    RuleBook book = options.rules().load(console).book();
    List<OutputChanges> outputs = new ArrayList<>();
    for (TraceResult trace : after.report().traces()) {
      if (before.edges().containsKey(trace.path()) && after.edges().containsKey(trace.path())) {
        outputs.addAll(OutputChanges.of(trace.path(), trace.timeBase(), book, before.edges().get(trace.path()),
            after.edges().get(trace.path())));
      }
    }
    ReportDigest first = ReportDigest.of(before.name(), before.report());
    ReportDigest second = ReportDigest.of(after.name(), after.report());
    return new LogicComparison(first, second, ReportComparison.of(first, second), outputs,
        before.report().hasFailure() || after.report().hasFailure());
  }

  private static Version run(String file, String side, ReplayOptions replay, CheckOptions options, Console console) {
    Map<String, EdgeLog> edges = new ConcurrentHashMap<>();
    ReplaySetup setup = ReplaySetup.of(replay.withLogic(file), console);
    CheckOptions own = options.withOut(options.report().out().map(folder -> Path.of(folder, side).toString()));
    try (CheckJob job = CheckJob.begin(own, console)) {
      LogicController controller = setup.controller(job.rules())
          .withWitness((source, judge) -> edges.computeIfAbsent(source,
              unused -> new EdgeLog(job.rules().book(), judge)));
      Report report = job.judge(controller, setup.sources(job, own.traces()), result -> {
        if (!result.reading().failure().isEmpty()) {
          console.err().println("pawl: " + file + " over " + result.path() + ": " + result.reading().failure());
        }
      });
      return new Version(file, report, edges);
    }
  }
}
