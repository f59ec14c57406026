package dev.pawl.cli.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Syntax;
import dev.pawl.cli.output.CheckOutput;
import dev.pawl.run.Controller;
import picocli.CommandLine.ParseResult;

/** {@code pawl check}: recorded traces against rules. */
public final class CheckCommand implements Command {

  @Override
  public Syntax syntax() {
    return Syntax.of(CheckOptions.ALL, Operands.any("TRACE", "Recorded traces, or folders of them."),
        "Checks recorded traces against rules. Paths may be folders.",
        "Exit status: 0 nothing broken, 1 a rule broken, 2 wrong input or command, 3 with --require-proof only, 4 with"
            + " --decisions only.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    CheckOptions options = CheckOptions.of(words).asked(words, syntax());
    CheckOutput output = new CheckOutput(options.report(), console);
    try (CheckJob job = CheckJob.begin(options, console)) {
      return output.close(job.judge(Controller.NONE, job.traces(), output::tell));
    }
  }
}
