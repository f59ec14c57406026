package dev.pawl.engine.plan;

import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.List;

/**
 * Rules and zones of a book that are evaluated together.
 *
 * @param rules the rules
 * @param zones zones to count, among them all that the rules rest on
 */
public record Selection(List<Rule> rules, List<Zone> zones) {

  /** Everything in a book. */
  public static Selection all(RuleBook book) {
    return new Selection(book.rules(), book.zones());
  }
}
