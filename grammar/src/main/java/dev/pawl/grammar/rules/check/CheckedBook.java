package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleExample;
import java.util.List;

/**
 * What checking gave.
 *
 * @param book complete only where no error was found
 * @param examples the examples of all files
 */
public record CheckedBook(RuleBook book, List<RuleExample> examples) {

  public CheckedBook {
    examples = List.copyOf(examples);
  }
}
