package dev.pawl.engine;

import java.util.List;
import java.util.Optional;

/**
 * What one trace says about one rule.
 *
 * @param rule index of the rule
 * @param obligations how its obligations ended
 * @param margin the smallest distance to breaking, where one can be stated
 * @param spread how near its single obligations came; empty where the rule states nothing that measures it
 * @param tried what became of each trial that the rule states, in their order
 * @param unconfirmed how many of the met rest on counts of trains that a later passage may still prove wrong
 * @param watched nanoseconds in which an {@code always} or {@code never} applied after the rule had begun; 0 for a
 *     {@code when}
 */
public record RuleOutcome(int rule, Obligations obligations, Optional<Margin> margin,
    Optional<MarginSpread> spread, List<Tried> tried, long unconfirmed, long watched) {

  public RuleOutcome {
    tried = List.copyOf(tried);
  }

  /** Of a rule that states no trial. */
  public RuleOutcome(int rule, Obligations obligations, Optional<Margin> margin, long watched) {
    this(rule, obligations, margin, Optional.empty(), List.of(), 0, watched);
  }

  public Verdict verdict() {
    return obligations.verdict(tried);
  }
}
