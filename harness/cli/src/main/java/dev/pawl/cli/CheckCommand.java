package dev.pawl.cli;

import dev.pawl.engine.Verdict;
import dev.pawl.report.json.JsonReportWriter;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.text.TextReport;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.bindings.Bindings;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code pawl check}: recorded traces against rules. */
final class CheckCommand implements Command {

  /** Findings of each rule in the text; the report files have all that are kept. */
  private static final int FINDINGS_IN_TEXT = 3;

  @Override
  public CommandSpec spec() {
    return CheckOptions.spec();
  }

  @Override
  public int run(ParseResult words, Console console) {
    return run(CheckOptions.of(words), console);
  }

  int run(CheckOptions options, Console console) {
    RuleFiles rules = RuleFiles.load(options.rules(), console);
    Bindings bindings = BindingsFiles.load(options.bindings(), rules.book(), console);
    List<Path> traces = TraceFiles.of(options.traces());
    TraceOptions reading = TraceOptions.of(rules.book()).withBindings(bindings).withLenient(options.lenient())
        .withAhead(options.jobs() > 1 && traces.size() == 1 && TraceFiles.isLarge(traces.get(0)));
    if (options.timeScale().isPresent()) {
      reading = reading.withTimeScale(options.timeScale().get());
    }
    boolean written = options.out().isPresent();
    TraceCheck check = new TraceCheck(rules.book(), reading, options.findings(), written);
    CheckRun run = new CheckRun(check, options, traces, console);
    List<TraceResult> results = run.judge(result -> tell(result, options, console));
    Report report = new Report(Version.TEXT, Instant.now().truncatedTo(ChronoUnit.SECONDS).toString(), console.interruption().isRequested(),
        rules.book().ride(), written || options.json() ? inputs(rules, options, run) : List.of(), results);
    close(report, options, console);
    return status(report, options);
  }

  private static void tell(TraceResult result, CheckOptions options, Console console) {
    if (!options.json()) {
      console.out().print(TextReport.trace(result, console.style(), Math.min(FINDINGS_IN_TEXT, options.findings())));
      console.out().flush();
    }
    if (!result.reading().failure().isEmpty()) {
      console.err().println("pawl: " + result.path() + ": " + result.reading().failure());
    }
  }

  private static List<Input> inputs(RuleFiles rules, CheckOptions options, CheckRun run) {
    List<Input> inputs = new ArrayList<>(rules.inputs());
    options.bindings().ifPresent(path -> inputs.add(Digests.of(Input.Role.BINDINGS, path)));
    inputs.addAll(run.traceInputs());
    return inputs;
  }

  private static void close(Report report, CheckOptions options, Console console) {
    options.out().ifPresent(folder -> ReportFiles.write(report, Path.of(folder)));
    if (options.json()) {
      writeJson(report, console);
      return;
    }
    options.out().ifPresent(folder -> console.out().println("Report: " + Path.of(folder, "report.html")
        + ", with report.json and junit.xml beside it"));
    console.out().print(TextReport.closing(report, console.style()));
  }

  private static void writeJson(Report report, Console console) {
    try {
      JsonReportWriter.write(report, new OutputStreamWriter(console.out(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message("standard output", e));
    }
  }

  private static int status(Report report, CheckOptions options) {
    if (report.hasFailure()) {
      return ExitStatus.WRONG_INPUT;
    }
    if (report.count(Verdict.BROKEN) > 0) {
      return ExitStatus.RULE_BROKEN;
    }
    boolean unproven = report.partial() || report.count(Verdict.UNDECIDED) + report.count(Verdict.NOT_EXERCISED) > 0;
    return options.requireProof() && unproven ? ExitStatus.NOT_PROVEN : ExitStatus.NOTHING_BROKEN;
  }
}
