package dev.pawl.run.files;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import dev.pawl.report.model.Input;
import dev.pawl.run.RunException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Rule files, compiled.
 *
 * @param compilation what compiling gave, without errors
 * @param book the rule book
 */
public record RuleFiles(Compilation compilation, RuleBook book) {

  public static final String ENDING = ".rules";

  /** Reads and compiles rule files, which may use others of their folders. */
  public static RuleFiles load(List<String> paths) {
    return load(paths, List.of(), Optional.empty());
  }

  /**
   * Reads and compiles rule files and those they use.
   *
   * @param paths files, or folders whose rule files are taken
   * @param usable further folders whose files may be named with {@code use}
   * @param library folder of the rule library, whose files may be named too
   * @throws RunException with every diagnostic, if there is an error in any of them
   */
  public static RuleFiles load(List<String> paths, List<String> usable, Optional<Path> library) {
    Compilation compilation = compile(paths, usable, library);
    if (compilation.book().isEmpty()) {
      long errors = compilation.diagnostics().stream().filter(diagnostic -> diagnostic.isError()).count();
      throw new RunException(compilation.rendered(),
          "the rules have " + errors + (errors == 1 ? " error" : " errors") + ", nothing was judged");
    }
    return new RuleFiles(compilation, compilation.book().get());
  }

  /**
   * Rule files that were compiled before, elsewhere, compiled again out of their texts alone.
   *
   * @param sources all of them, those used by others included, in the order in which they were read
   */
  public static RuleFiles of(List<Source> sources) {
    Map<String, Source> byName = sources.stream().collect(Collectors.toMap(Source::name, Function.identity()));
    Compilation compilation = RuleLanguage.compile(sources, name -> {
      if (!byName.containsKey(name)) {
        throw new IOException("it is not among the texts");
      }
      return byName.get(name);
    });
    return new RuleFiles(compilation, compilation.book().orElseThrow(() -> new RunException(compilation.rendered(),
        "the rules have errors here and had none where they were read; both must be the same pawl")));
  }

  /** The same where errors are what is asked for. */
  public static Compilation compile(List<String> paths, List<String> usable, Optional<Path> library) {
    List<Source> sources = new ArrayList<>();
    List<Path> files = Folders.files(paths, "rule files (*" + ENDING + ")", name -> name.endsWith(ENDING));
    for (Path file : files) {
      sources.add(read(file));
    }
    return RuleLanguage.compile(sources, new UsedFiles(files, usable, library));
  }

  public static Source read(Path file) {
    try {
      return new Source(file.toString(), Texts.read(file));
    } catch (IOException e) {
      throw new RunException(FileTrouble.message(file.toString(), e));
    }
  }

  /** The files as inputs of a report. */
  public List<Input> inputs() {
    List<Input> inputs = new ArrayList<>();
    for (Source source : compilation.sources()) {
      inputs.add(Digests.of(Input.Role.RULES, source));
    }
    return inputs;
  }
}
