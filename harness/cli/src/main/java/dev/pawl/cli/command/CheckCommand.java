package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.ReportOptions;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.cli.output.CheckOutput;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.report.json.JsonDiagnosticsWriter;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.Controller;
import java.util.List;
import java.util.Set;
import picocli.CommandLine.ParseResult;

/** {@code pawl check}: recorded traces against rules, or rules by themselves. */
public final class CheckCommand implements Command {

  private static final Option<Boolean> ALONE = Option.flag("Check the rules by themselves, against no trace: what is"
      + " wrong or doubtful in them, with --format json as JSON.", "--alone");
  private static final Set<String> OF_RULES_ALONE = Set.of(RuleOptions.RULES.name(), RuleOptions.USE_FROM.name(),
      ReportOptions.FORMAT.name(), ALONE.name());

  @Override
  public Syntax syntax() {
    return Syntax.of(Syntax.all(CheckOptions.ALL, List.of(ReportOptions.EARLIER, ALONE)), Operands.any("TRACE",
        "Recorded traces, or folders of them."),
        "Checks recorded traces against rules. Paths may be folders.",
        "Exit status: 0 nothing broken, 1 a rule broken, 2 wrong input or command, 3 with --require-proof only, 4 with"
            + " --decisions only. With --alone: 2 if the rules have errors, else 0.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    if (ALONE.of(words)) {
      return rulesAlone(words, console);
    }
    CheckOptions options = CheckOptions.of(words).asked(words, syntax());
    CheckOutput output = new CheckOutput(options.report(), console);
    try (CheckJob job = CheckJob.begin(options, console)) {
      return output.close(job.judge(Controller.NONE, job.traces(), output::tell));
    }
  }

  private static int rulesAlone(ParseResult words, Console console) {
    RuleOptions.others(words).stream().findFirst().ifPresent(trace -> {
      throw new CommandException("--alone: rules are checked against no trace; leave " + trace + " out");
    });
    CommandLines.refuse(words, "with --alone nothing is judged; leave it out", OF_RULES_ALONE);
    Compilation compilation = RuleOptions.of(words).compile(console);
    if (ReportOptions.FORMAT.of(words)) {
      JsonDiagnosticsWriter.write(compilation, console.out());
    } else {
      console.out().print(compilation.rendered());
      console.out().println(summary(compilation));
    }
    return compilation.book().isPresent() ? ExitStatus.NOTHING_BROKEN : ExitStatus.WRONG_INPUT;
  }

  private static String summary(Compilation compilation) {
    long errors = compilation.diagnostics().stream().filter(Diagnostic::isError).count();
    long warnings = compilation.diagnostics().size() - errors;
    return ValueText.count(compilation.sources().size(), "file") + ", "
        + compilation.book().map(book -> ValueText.count(book.rules().size(), "rule") + ", ").orElse("")
        + ValueText.count(errors, "error") + ", " + ValueText.count(warnings, "warning");
  }
}
