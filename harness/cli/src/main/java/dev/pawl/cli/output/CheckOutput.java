package dev.pawl.cli.output;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.option.ReportOptions;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.ReportFormat;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.text.TextReport;
import dev.pawl.report.words.LapsedDecision;
import dev.pawl.run.files.FileTrouble;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.EnumSet;

/** What commands that check say on the console, and the exit status they end with. */
public final class CheckOutput {

  /** Findings of each rule in the text; the report files have all that are kept. */
  private static final int FINDINGS_IN_TEXT = 3;

  private final ReportOptions options;
  private final Console console;

  public CheckOutput(ReportOptions options, Console console) {
    this.options = options;
    this.console = console;
  }

  /** Says what one trace shows. */
  public void tell(TraceResult result) {
    if (!options.json()) {
      console.out().print(TextReport.trace(result, console.style(), Math.min(FINDINGS_IN_TEXT, options.findings())));
      console.out().flush();
    }
    if (!result.reading().failure().isEmpty()) {
      console.err().println("pawl: " + result.path() + ": " + result.reading().failure());
    }
  }

  /** Says what follows all traces; returns the exit status. */
  public int close(Report report) {
    if (options.json()) {
      writeJson(report);
    } else {
      options.out().ifPresent(folder -> console.out().println("Report: " + Path.of(folder, ReportFormat.HTML.fileName())
          + ", with "
          + ReportFormat.inWords(EnumSet.complementOf(EnumSet.of(ReportFormat.HTML))) + " beside it"));
      console.out().print(TextReport.closing(report, console.style()));
    }
    return status(report);
  }

  private void writeJson(Report report) {
    try {
      ReportFormat.JSON.write(report, new OutputStreamWriter(console.out(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message("standard output", e));
    }
  }

  private int status(Report report) {
    if (report.hasFailure()) {
      return ExitStatus.WRONG_INPUT;
    }
    if (report.traces().stream().anyMatch(trace -> trace.rules().stream()
        .anyMatch(rule -> rule.verdict() == Verdict.BROKEN && !isAccepted(report, trace, rule)))) {
      return ExitStatus.RULE_BROKEN;
    }
    if (options.requireProof() && !isProven(report)) {
      return ExitStatus.NOT_PROVEN;
    }
    boolean lapsed = !LapsedDecision.of(report).isEmpty();
    boolean accepted = report.count(Verdict.BROKEN) > 0 && !options.decisions().acceptedPass();
    return lapsed || accepted ? ExitStatus.ACCEPTED : ExitStatus.NOTHING_BROKEN;
  }

  private static boolean isAccepted(Report report, TraceResult trace, RuleResult rule) {
    return !report.decisions().accepting(trace, rule).isEmpty();
  }

  /**
   * Whether every rule is held, but for what is accepted, and each that is critical was tried or says why nothing can
   * try it.
   */
  private static boolean isProven(Report report) {
    return !report.partial() && RuleOverview.of(report).stream().allMatch(rule -> isHeldOrAccepted(report, rule)
        && !(rule.isHeldUntried() && rule.rule().severity() == Rule.Severity.CRITICAL));
  }

  private static boolean isHeldOrAccepted(Report report, RuleOverview rule) {
    return rule.verdict() == Verdict.HELD || rule.verdict() != Verdict.NOT_EXERCISED
        && !report.decisions().accepting(rule).isEmpty();
  }
}
