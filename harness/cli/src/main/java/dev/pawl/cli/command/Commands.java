package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.option.Nearest;

/** All commands by name. A command's class is loaded only when it is asked for, which keeps the start short. */
public final class Commands {

  public static final String[] NAMES = {"check", "replay", "watch", "record", "serve", "explain", "format", "examples",
      "compare", "demo"};

  private Commands() {}

  public static Command named(String name) {
    return switch (name) {
      case "check" -> new CheckCommand();
      case "replay" -> new ReplayCommand();
      case "watch" -> new LiveCommand(true);
      case "record" -> new LiveCommand(false);
      case "serve" -> new ServeCommand();
      case "compare" -> new CompareCommand();
      case "explain" -> new ExplainCommand();
      case "examples" -> new ExamplesCommand();
      case "format" -> new FormatCommand();
      case "demo" -> new DemoCommand();
      default -> throw new CommandException(unknown(name));
    };
  }

  private static String unknown(String name) {
    String what = name.startsWith("-") ? "unknown option '" : "unknown command '";
    String nearest = Nearest.to(name, NAMES);
    return what + name + "'" + (nearest.isEmpty() ? "" : "; did you mean '" + nearest + "'?")
        + " ('pawl --help' lists the commands)";
  }
}
