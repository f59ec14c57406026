package dev.pawl.cli;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** One command of {@code pawl}. */
interface Command {

  /** Its options and parameters, for parsing and for its help. */
  CommandSpec spec();

  /**
   * Does the job.
   *
   * @return the exit status
   * @throws CommandException if the input is wrong
   */
  int run(ParseResult words, Console console);
}
