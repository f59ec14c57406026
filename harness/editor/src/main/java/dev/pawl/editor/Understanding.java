package dev.pawl.editor;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.Optional;

/**
 * What is understood of a rule file and of all files that it uses.
 *
 * @param names what they declare
 * @param book the rule book, or the last one that there was
 */
record Understanding(Compilation compilation, List<Named> names, Optional<RuleBook> book) {

  /** Reads a file, of which there may have been an understanding before. */
  static Understanding of(Source source, SourceLoader loader, Optional<Understanding> before) {
    Compilation compilation = RuleLanguage.compile(List.of(source), loader);
    List<Named> names = compilation.files().stream().flatMap(file -> Named.of(file).stream()).toList();
    return new Understanding(compilation, names, compilation.book().or(() -> before.flatMap(last -> last.book)));
  }

  boolean reads(String file) {
    return file(file).isPresent();
  }

  Optional<RuleFile> file(String name) {
    return compilation.files().stream().filter(file -> file.source().name().equals(name)).findFirst();
  }
}
