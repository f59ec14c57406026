package dev.pawl.cli;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import dev.pawl.report.model.Input;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/**
 * The rule files that a command was given, compiled.
 *
 * @param compilation what compiling gave, without errors
 * @param book the rule book
 */
record RuleFiles(Compilation compilation, RuleBook book) {

  static final String ENDING = ".rules";

  /**
   * Reads and compiles rule files and those they use.
   *
   * @param paths files, or folders whose rule files are taken
   * @param usable further folders whose files may be named with {@code use}
   * @throws CommandException with every diagnostic, if there is an error in any of them
   */
  static RuleFiles load(List<String> paths, List<String> usable, Console console) {
    List<Source> sources = new ArrayList<>();
    List<Path> files = Folders.files(paths, "rule files (*" + ENDING + ")", name -> name.endsWith(ENDING));
    for (Path file : files) {
      sources.add(read(file));
    }
    Compilation compilation = RuleLanguage.compile(sources, new UsedFiles(files, usable, console.home().resolve("rules")));
    if (compilation.book().isEmpty()) {
      console.err().print(compilation.rendered());
      long errors = compilation.diagnostics().stream().filter(diagnostic -> diagnostic.isError()).count();
      throw new CommandException("the rules have " + errors + (errors == 1 ? " error" : " errors") + ", nothing was judged");
    }
    return new RuleFiles(compilation, compilation.book().get());
  }

  /** The option that allows further folders. */
  static OptionSpec usableFolders() {
    return CheckOptions.list("FOLDER", "Rule files may 'use' files of this folder too; usual are only those in the folders of the rule"
        + " files named here, and pawl's own library. Can be given several times.", "--use-from");
  }

  static List<String> usableFolders(ParseResult words) {
    return words.matchedOptionValue("--use-from", List.<String>of());
  }

  /** The paths given with {@code --rules} and without, of which there must be one. */
  static List<String> named(ParseResult words, String command) {
    List<String> paths = new ArrayList<>(words.matchedOptionValue("--rules", List.<String>of()));
    paths.addAll(words.matchedPositionalValue(0, List.<String>of()));
    if (paths.isEmpty()) {
      throw new CommandException("no rules: name a rule file or folder ('" + command + " --help' shows how)");
    }
    return paths;
  }

  static Source read(Path file) {
    try {
      return new Source(file.toString(), Texts.read(file));
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(file.toString(), e));
    }
  }

  /** Says in one line that there are warnings; {@code pawl explain} shows them. */
  void mentionWarnings(Console console) {
    int warnings = compilation.diagnostics().size();
    if (warnings > 0) {
      console.err().println("pawl: the rules have " + warnings + (warnings == 1 ? " warning" : " warnings") + " ('pawl explain' shows "
          + (warnings == 1 ? "it)" : "them)"));
    }
  }

  /** Shows all warnings. */
  void showWarnings(Console console) {
    console.err().print(compilation.rendered());
  }

  /** The files as inputs of a report. */
  List<Input> inputs() {
    List<Input> inputs = new ArrayList<>();
    for (Source source : compilation.sources()) {
      inputs.add(Digests.of(Input.Role.RULES, source.name()));
    }
    return inputs;
  }

  /** Whether the path is there to be read. */
  static boolean isRuleFile(String path) {
    return path.endsWith(ENDING) && !Files.isDirectory(Path.of(path));
  }
}
