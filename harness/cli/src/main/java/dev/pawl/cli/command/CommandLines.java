package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.engine.Caution;
import dev.pawl.grammar.source.NearName;
import java.util.List;
import java.util.Set;
import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;

/** Parses the words of one command and runs it. */
public final class CommandLines {

  static {
    // The parser looks for the closures of another language, which are not there: a search of every jar of the class
    // path.
    System.setProperty("picocli.disable.closures", "true");
  }

  private CommandLines() {}

  public static int run(Commands which, String[] arguments, Console console) {
    return run(which.make(), which.word(), arguments, console);
  }

  /** Runs a command that was made elsewhere, called by a word. */
  public static int run(Command command, String word, String[] arguments, Console console) {
    CommandSpec spec = command.syntax().spec("pawl " + word);
    spec.addOption(OptionSpec.builder("-h", "--help").usageHelp(true).description("Show this help.").build());
    spec.usageMessage().width(100).sortOptions(false).abbreviateSynopsis(true).autoWidth(false);
    spec.usageMessage().footer(command.cautions().stream().map(Caution::text).toArray(String[]::new));
    CommandLine line = new CommandLine(spec).setToggleBooleanFlags(false).setOverwrittenOptionsAllowed(false);
    try {
      ParseResult words = line.parseArgs(arguments);
      if (words.isUsageHelpRequested()) {
        line.usage(console.out(), Help.Ansi.OFF);
        return ExitStatus.NOTHING_BROKEN;
      }
      requireNoneEmpty(arguments);
      return command.run(words, console);
    } catch (ParameterException e) {
      throw new CommandException(message(e, spec) + " ('" + spec.name() + " --help' shows how)");
    }
  }

  /** As a path, nothing at all would be the current folder: what a variable that is not set leaves of a command. */
  private static void requireNoneEmpty(String[] arguments) {
    for (String argument : arguments) {
      if (argument.isBlank() || argument.matches("--[a-z-]+=\\s*")) {
        throw new CommandException((argument.isBlank() ? "" : argument.strip() + ": ")
            + "an empty argument names nothing; leave it out, or write . for the current folder");
      }
    }
  }

  /** Refuses options that mean nothing beside what the command was given to do; all but those of these names. */
  static void refuse(ParseResult words, String why, Set<String> meaningful) {
    for (OptionSpec option : words.matchedOptions()) {
      if (!meaningful.contains(option.longestName())) {
        throw new CommandException(option.longestName() + ": " + why);
      }
    }
  }

  /** What to add where an option is near by its letters; the dashes, which all have, do not count. */
  private static String hint(String option, CommandSpec spec) {
    List<String> letters = spec.options().stream().map(known -> known.longestName().substring(2)).toList();
    return NearName.of(option.replaceFirst("^-+", ""), letters).map(nearest -> "; did you mean '--" + nearest + "'?")
        .orElse("");
  }

  private static String message(ParameterException problem, CommandSpec spec) {
    if (problem instanceof UnmatchedArgumentException unmatched && unmatched.isUnknownOption()) {
      String option = unmatched.getUnmatched().get(0).replaceFirst("=.*", "");
      return "unknown option: '" + option + "'" + hint(option, spec);
    }
    String text = problem.getMessage();
    if (problem instanceof MissingParameterException missing && !missing.getMissing().isEmpty()
        && missing.getMissing().get(0) instanceof PositionalParamSpec parameter) {
      text = "missing " + parameter.paramLabel();
    }
    return Character.toLowerCase(text.charAt(0)) + text.substring(1);
  }
}
