package dev.pawl.grammar.rules;

import dev.pawl.grammar.rules.advice.BookAdvice;
import dev.pawl.grammar.rules.check.BookChecker;
import dev.pawl.grammar.rules.check.CheckedBook;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.Optional;

/**
 * The whole way from rule files to a rule book.
 *
 * <p>Each file is read into a syntax tree, the files it uses are read after it, each once; then all of them together
 * are checked. Errors do not stop the way: everything that is wrong in any file is told in one run, and the book is
 * there only where nothing is.
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
    CheckedBook checked = BookChecker.check(files, diagnostics);
    List<Source> read = files.stream().map(RuleFile::source).toList();
    boolean sound = !diagnostics.hasErrors();
    if (sound) {
      BookAdvice.of(checked.book()).forEach(diagnostics::add);
    }
    return new Compilation(sound ? Optional.of(checked.book()) : Optional.empty(), sound ? checked.examples()
        : List.of(), diagnostics.inOrder(read.stream().map(Source::name).toList()), read);
  }
}
