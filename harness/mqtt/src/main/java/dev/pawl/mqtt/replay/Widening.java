package dev.pawl.mqtt.replay;

import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.List;

/** Rule books that claim no more than the timing of a replay allows. */
public final class Widening {

  private Widening() {}

  /** The book with every resolution widened by the given nanoseconds, so that what is decided by less is undecided. */
  public static RuleBook of(RuleBook book, long nanoseconds) {
    List<Rule> rules = book.rules().stream().map(rule -> widened(rule, nanoseconds)).toList();
    return new RuleBook(book.ride(), book.resolution() + nanoseconds, book.signals(), book.zones(), rules);
  }

  private static Rule widened(Rule rule, long nanoseconds) {
    return new Rule(rule.index(), rule.id(), rule.title(), rule.severity(), rule.basis(), rule.basisIsPractice(), rule.duty(),
        rule.resolution() + nanoseconds, rule.text(), rule.position());
  }
}
