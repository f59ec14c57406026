package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Diagnostic;
import java.util.List;

/**
 * What reading a rule file gave.
 *
 * @param file every declaration that could be read
 * @param diagnostics what is wrong with the others, in the order of the text
 */
public record ParsedFile(RuleFile file, List<Diagnostic> diagnostics) {

  public ParsedFile {
    diagnostics = List.copyOf(diagnostics);
  }
}
