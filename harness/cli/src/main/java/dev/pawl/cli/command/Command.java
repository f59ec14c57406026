package dev.pawl.cli.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.option.Syntax;
import dev.pawl.engine.Caution;
import java.util.List;
import picocli.CommandLine.ParseResult;

/** One command of {@code pawl}. */
public interface Command {

  /** Its options and arguments, for parsing and for its help. */
  Syntax syntax();

  /** What its user has to bear in mind; its help says so. */
  default List<Caution> cautions() {
    return Caution.OF_VERDICTS;
  }

  /**
   * Does the job.
   *
   * @return the exit status
   * @throws CommandException if the input is wrong
   */
  int run(ParseResult words, Console console);
}
