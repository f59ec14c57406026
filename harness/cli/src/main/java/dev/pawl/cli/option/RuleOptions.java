package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.run.files.RuleFiles;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/**
 * The rule files that a command is given.
 *
 * @param paths rule files and folders
 * @param usable further folders whose files rule files may use
 */
public record RuleOptions(List<String> paths, List<String> usable) {

  public static final Option<List<String>> RULES = Option.list("PATH",
      "Rule file, or folder of rule files (*.rules); can be given several times. Arguments that end in .rules are rule"
          + " files too.", "-r", "--rules");
  public static final Option<List<String>> USE_FROM = Option.list("FOLDER",
      "Rule files may 'use' files of this folder too; usual are only those in the folders of the rule files named here,"
          + " and pawl's own library. Can be given several times.", "--use-from");

  /** Those of a command whose arguments are rule files, whatever their names. */
  public static RuleOptions ofAll(ParseResult words) {
    List<String> paths = new ArrayList<>(RULES.of(words));
    paths.addAll(Operands.of(words));
    if (paths.isEmpty()) {
      throw new CommandException("no rules: name a rule file or folder" + howTo(words));
    }
    return new RuleOptions(paths, USE_FROM.of(words));
  }

  /** Those of a command whose arguments are rule files by their names, and others. */
  public static RuleOptions of(ParseResult words) {
    List<String> paths = new ArrayList<>(RULES.of(words));
    Operands.of(words).stream().filter(RuleOptions::isRuleFile).forEach(paths::add);
    if (paths.isEmpty()) {
      throw new CommandException("no rules: give a rule file or folder with --rules" + howTo(words));
    }
    return new RuleOptions(paths, USE_FROM.of(words));
  }

  /** The arguments that are no rule files. */
  public static List<String> others(ParseResult words) {
    return Operands.of(words).stream().filter(path -> !isRuleFile(path)).toList();
  }

  /** The same for a command that takes none. */
  public static RuleOptions alone(ParseResult words) {
    RuleOptions rules = of(words);
    others(words).stream().findFirst().ifPresent(other -> {
      throw new CommandException(other + ": " + words.commandSpec().name()
          + " takes rule files (*.rules) and no traces; a folder of rules goes with --rules");
    });
    return rules;
  }

  private static boolean isRuleFile(String path) {
    return path.endsWith(RuleFiles.ENDING) && !Files.isDirectory(Path.of(path));
  }

  static String howTo(ParseResult words) {
    return " ('" + words.commandSpec().name() + " --help' shows how)";
  }

  /** The same where errors are what is asked for. */
  public Compilation compile(Console console) {
    return RuleFiles.compile(paths, usable, library(console));
  }

  private static Optional<Path> library(Console console) {
    return Optional.of(console.home().resolve("rules"));
  }

  /** Reads and compiles the rule files and those they use, pawl's own library among them. */
  public RuleFiles load(Console console) {
    return RuleFiles.load(paths, usable, library(console));
  }
}
