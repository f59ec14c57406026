package dev.pawl.cli;

import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.bindings.Bindings;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/** The job of checking: from paths to a report, and its files where they are asked for. */
final class CheckJob {

  private final CheckOptions options;
  private final Console console;

  CheckJob(CheckOptions options, Console console) {
    this.options = options;
    this.console = console;
  }

  /**
   * Does the whole job.
   *
   * @param told is told of each trace's result as soon as it and all before it are there
   */
  Report run(Consumer<TraceResult> told) {
    RuleFiles rules = RuleFiles.load(options.rules(), console);
    if (!options.quiet()) {
      rules.mentionWarnings(console);
    }
    Bindings bindings = BindingsFiles.load(options.bindings(), rules.book(), console);
    List<Path> traces = TraceFiles.of(options.traces());
    TraceCheck check = new TraceCheck(rules.book(), reading(rules, bindings, traces), options.findings(), options.out().isPresent());
    CheckRun run = new CheckRun(check, options, traces, console);
    List<TraceResult> results = run.judge(told);
    boolean kept = options.out().isPresent() || options.json();
    Report report = new Report(Version.TEXT, Instant.now().truncatedTo(ChronoUnit.SECONDS).toString(),
        console.interruption().isRequested(), rules.book().ride(), kept ? inputs(rules, run) : List.of(), results);
    options.out().ifPresent(folder -> ReportFiles.write(report, Path.of(folder)));
    return report;
  }

  private TraceOptions reading(RuleFiles rules, Bindings bindings, List<Path> traces) {
    TraceOptions reading = TraceOptions.of(rules.book()).withBindings(bindings).withLenient(options.lenient())
        .withAhead(options.jobs() > 1 && traces.size() == 1 && TraceFiles.isLarge(traces.get(0)));
    return options.timeScale().map(reading::withTimeScale).orElse(reading);
  }

  private List<Input> inputs(RuleFiles rules, CheckRun run) {
    List<Input> inputs = new ArrayList<>(rules.inputs());
    options.bindings().ifPresent(path -> inputs.add(Digests.of(Input.Role.BINDINGS, path)));
    inputs.addAll(run.traceInputs());
    return inputs;
  }
}
