package dev.pawl.engine;

import java.util.Optional;

/**
 * What one trace says about one rule.
 *
 * @param rule index of the rule
 * @param obligations how its obligations ended
 * @param margin the smallest distance to breaking, where one can be stated
 * @param watched nanoseconds in which an {@code always} or {@code never} applied after the rule had begun; 0 for a {@code when}
 */
public record RuleOutcome(int rule, Obligations obligations, Optional<Margin> margin, long watched) {

  public Verdict verdict() {
    return obligations.verdict();
  }
}
