package dev.pawl.grammar.rules;

import dev.pawl.grammar.rules.advice.BookAdvice;
import dev.pawl.grammar.rules.check.BookChecker;
import dev.pawl.grammar.rules.check.CheckedBook;
import dev.pawl.grammar.rules.check.Problems;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The whole way from rule files to a rule book.
 *
 * <p>Each file is read into a syntax tree, the files it uses are read after it, each once; then all of them together are
 * checked. Errors do
 * not stop the way: everything that is wrong in any file is told in one run, and the book is there only where nothing is.
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
    Problems problems = new Problems();
    FileGatherer gatherer = new FileGatherer(imports, problems);
    sources.forEach(gatherer::add);
    List<RuleFile> files = gatherer.files();
    CheckedBook checked = BookChecker.check(files, problems);
    List<Source> read = files.stream().map(RuleFile::source).toList();
    boolean sound = !problems.hasErrors();
    if (sound) {
      BookAdvice.of(checked.book()).forEach(problems::add);
    }
    return new Compilation(sound ? Optional.of(checked.book()) : Optional.empty(), sound ? checked.examples() : List.of(),
        inOrder(problems.list(), read), read);
  }

  private static List<Diagnostic> inOrder(List<Diagnostic> diagnostics, List<Source> read) {
    Map<String, Integer> order = new HashMap<>();
    read.forEach(source -> order.put(source.name(), order.size()));
    List<Diagnostic> sorted = new ArrayList<>(diagnostics);
    sorted.sort(Comparator.comparing((Diagnostic d) -> order.getOrDefault(d.position().file(), -1))
        .thenComparing(d -> d.position().line())
        .thenComparing(d -> d.position().column()));
    return sorted;
  }
}
