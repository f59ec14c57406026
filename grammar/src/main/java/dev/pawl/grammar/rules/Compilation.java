package dev.pawl.grammar.rules;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.Optional;

/**
 * What compiling rule files gave.
 *
 * @param book the rule book, absent where there is any error
 * @param examples the examples of all files; empty where there is any error
 * @param diagnostics everything wrong or doubtful, file by file in the order of the text
 * @param files all files that were read, those used by others included, as they are written
 */
public record Compilation(Optional<RuleBook> book, List<RuleExample> examples, List<Diagnostic> diagnostics,
    List<RuleFile> files) {

  public Compilation {
    examples = List.copyOf(examples);
    diagnostics = List.copyOf(diagnostics);
    files = List.copyOf(files);
  }

  /** The texts of all files. */
  public List<Source> sources() {
    return files.stream().map(RuleFile::source).toList();
  }

  /** All diagnostics as text. */
  public String rendered() {
    return new DiagnosticRenderer(sources()).render(diagnostics);
  }
}
