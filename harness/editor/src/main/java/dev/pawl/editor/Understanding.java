package dev.pawl.editor;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.parse.RuleReader;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Source;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What is understood of a rule file and of all files that it uses.
 *
 * @param files the syntax trees by the names of the files
 * @param names what they declare
 * @param book the rule book, or the last one that there was
 */
record Understanding(Compilation compilation, Map<String, RuleFile> files, List<Named> names,
    Optional<RuleBook> book) {

  /** Reads a file anew. What has not changed since the last time is not parsed again for its names. */
  static Understanding of(Source source, SourceLoader loader, Optional<Understanding> before) {
    Compilation compilation = RuleLanguage.compile(List.of(source), loader);
    Map<String, RuleFile> files = new HashMap<>();
    for (Source read : compilation.sources()) {
      RuleFile known = before.map(last -> last.files.get(read.name())).orElse(null);
      files.put(read.name(), known != null && known.source().equals(read) ? known : RuleReader.read(read).file());
    }
    List<Named> names = compilation.sources().stream().flatMap(read -> Named.of(files.get(read.name())).stream())
        .toList();
    return new Understanding(compilation, files, names, compilation.book().or(() -> before.flatMap(last ->
        last.book)));
  }

  boolean reads(String file) {
    return files.containsKey(file);
  }
}
