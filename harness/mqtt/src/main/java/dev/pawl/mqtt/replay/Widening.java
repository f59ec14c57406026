package dev.pawl.mqtt.replay;

import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.mqtt.feed.SenderClocks;
import java.util.List;

/** Rule books that claim no more than the timing of a replay, or of a live feed, allows. */
public final class Widening {

  private Widening() {}

  /** The book with every resolution widened by the given nanoseconds, so that what is decided by less is undecided. */
  public static RuleBook of(RuleBook book, long nanoseconds) {
    List<Rule> rules = book.rules().stream().map(rule -> widened(rule, nanoseconds)).toList();
    return new RuleBook(book.ride(), book.resolution() + nanoseconds, book.signals(), book.zones(), rules);
  }

  /**
   * The book with the resolution of each rule whose signals' times are not told by one clock widened by what such times
   * can be off each other.
   */
  public static RuleBook of(RuleBook book, SenderClocks clocks) {
    List<Rule> rules = book.rules().stream().map(rule -> widened(rule,
        clocks.uncertainty(RuleParts.signals(rule, book)))).toList();
    return new RuleBook(book.ride(), book.resolution(), book.signals(), book.zones(), rules);
  }

  private static Rule widened(Rule rule, long nanoseconds) {
    return rule.withResolution(rule.resolution() + nanoseconds);
  }
}
