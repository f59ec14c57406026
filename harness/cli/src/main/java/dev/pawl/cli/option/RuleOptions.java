package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.run.files.RuleFiles;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** The rule files that a command was given. */
public final class RuleOptions {

  private RuleOptions() {}

  /** Reads and compiles rule files and those they use, pawl's own library among them. */
  public static RuleFiles load(List<String> paths, List<String> usable, Console console) {
    return RuleFiles.load(paths, usable, Optional.of(console.home().resolve("rules")));
  }

  /** The option that allows further folders. */
  public static OptionSpec usableFolders() {
    return CheckOptions.list("FOLDER",
        "Rule files may 'use' files of this folder too; usual are only those in the folders of the rule"
        + " files named here, and pawl's own library. Can be given several times.", "--use-from");
  }

  public static List<String> usableFolders(ParseResult words) {
    return words.matchedOptionValue("--use-from", List.<String>of());
  }

  /** The paths given with {@code --rules} and without, of which there must be one. */
  public static List<String> named(ParseResult words, String command) {
    List<String> paths = new ArrayList<>(words.matchedOptionValue("--rules", List.<String>of()));
    paths.addAll(words.matchedPositionalValue(0, List.<String>of()));
    if (paths.isEmpty()) {
      throw new CommandException("no rules: name a rule file or folder ('" + command + " --help' shows how)");
    }
    return paths;
  }

  /** Whether the path is there to be read. */
  public static boolean isRuleFile(String path) {
    return path.endsWith(RuleFiles.ENDING) && !Files.isDirectory(Path.of(path));
  }

  /** Says in one line that there are warnings; {@code pawl explain} shows them. */
  public static void mentionWarnings(RuleFiles rules, Console console) {
    int warnings = rules.compilation().diagnostics().size();
    if (warnings > 0) {
      console.err().println("pawl: the rules have " + warnings + (warnings == 1 ? " warning" : " warnings")
          + " ('pawl explain' shows "
          + (warnings == 1 ? "it)" : "them)"));
    }
  }
}
