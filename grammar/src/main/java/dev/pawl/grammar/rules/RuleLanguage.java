package dev.pawl.grammar.rules;

import dev.pawl.grammar.rules.advice.BookAdvice;
import dev.pawl.grammar.rules.check.BookChecker;
import dev.pawl.grammar.rules.check.CheckedBook;
import dev.pawl.grammar.rules.parse.LanguageVersion;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.Optional;

/**
 * The whole way from rule files to a rule book.
 *
 * <p>Each file is read into a syntax tree, the files it uses are read after it, each once; then all of them together
 * are checked. Errors do not stop the way: everything that is wrong in any file is told in one run, and the book is
 * there only where nothing is. Only a file in a version of the language that is not known yet ends the way early: what
 * else would be said of it means nothing.
 */
public final class RuleLanguage {

  private RuleLanguage() {}

  /**
   * Compiles rule files, which share one name space.
   *
   * @param sources the files, in the order in which their rules are to be listed
   * @param imports where files come from that these use
   */
  public static Compilation compile(List<Source> sources, SourceLoader imports) {
    Diagnostics diagnostics = new Diagnostics();
    FileGatherer gatherer = new FileGatherer(imports, diagnostics);
    sources.forEach(gatherer::add);
    List<RuleFile> files = gatherer.files();
    if (files.stream().anyMatch(file -> LanguageVersion.isNewer(file.declarations()))) {
      return new Compilation(Optional.empty(), List.of(), inOrder(diagnostics, files), files);
    }
    CheckedBook checked = BookChecker.check(files, diagnostics);
    boolean sound = !diagnostics.hasErrors();
    if (sound) {
      BookAdvice.of(checked.book()).forEach(diagnostics::add);
    }
    return new Compilation(sound ? Optional.of(checked.book()) : Optional.empty(), sound ? checked.examples()
        : List.of(), inOrder(diagnostics, files), files);
  }

  private static List<Diagnostic> inOrder(Diagnostics diagnostics, List<RuleFile> files) {
    return diagnostics.inOrder(files.stream().map(file -> file.source().name()).toList());
  }
}
