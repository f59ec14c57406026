package dev.pawl.cli;

import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;

/** Parses the words of one command and runs it. Specifications are built by hand: reading annotations would cost start-up time. */
final class CommandLines {

  static {
    // The parser looks for the closures of another language, which are not there: a search of every jar of the class path.
    System.setProperty("picocli.disable.closures", "true");
  }

  private CommandLines() {}

  static int run(Command command, String[] arguments, Console console) {
    CommandSpec spec = command.spec();
    spec.addOption(OptionSpec.builder("-h", "--help").usageHelp(true).description("Show this help.").build());
    spec.usageMessage().width(100).sortOptions(false).abbreviateSynopsis(true).autoWidth(false);
    CommandLine line = new CommandLine(spec).setToggleBooleanFlags(false).setOverwrittenOptionsAllowed(false);
    try {
      ParseResult words = line.parseArgs(arguments);
      if (words.isUsageHelpRequested()) {
        line.usage(console.out(), Help.Ansi.OFF);
        return ExitStatus.NOTHING_BROKEN;
      }
      return command.run(words, console);
    } catch (ParameterException e) {
      throw new CommandException(message(e) + " ('" + spec.name() + " --help' shows how)");
    }
  }

  private static String message(ParameterException problem) {
    String text = problem.getMessage();
    if (problem instanceof MissingParameterException missing && !missing.getMissing().isEmpty()
        && missing.getMissing().get(0) instanceof PositionalParamSpec parameter) {
      text = "missing " + parameter.paramLabel();
    }
    return Character.toLowerCase(text.charAt(0)) + text.substring(1);
  }
}
