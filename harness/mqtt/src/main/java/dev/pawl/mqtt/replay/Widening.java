package dev.pawl.mqtt.replay;

import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import java.util.List;
import java.util.Set;
import java.util.function.ToLongFunction;

/** Rule books that claim no more than the timing of a replay, a live feed or a session of several files allows. */
public final class Widening {

  private Widening() {}

  /** The book with every resolution widened by the given nanoseconds, so that what is decided by less is undecided. */
  public static RuleBook of(RuleBook book, long nanoseconds) {
    List<Rule> rules = book.rules().stream().map(rule -> widened(rule, nanoseconds)).toList();
    return new RuleBook(book.ride(), book.resolution() + nanoseconds, book.signals(), book.zones(), rules,
        book.requirements());
  }

  /**
   * The book with the resolution of each rule whose signals' times are not told by one clock widened by what such times
   * can be off each other.
   *
   * @param uncertainty of some signals, in nanoseconds
   */
  public static RuleBook of(RuleBook book, ToLongFunction<Set<Integer>> uncertainty) {
    List<Rule> rules = book.rules().stream().map(rule -> widened(rule,
        uncertainty.applyAsLong(RuleParts.signals(rule, book)))).toList();
    return new RuleBook(book.ride(), book.resolution(), book.signals(), book.zones(), rules, book.requirements());
  }

  private static Rule widened(Rule rule, long nanoseconds) {
    return rule.withResolution(rule.resolution() + nanoseconds);
  }
}
