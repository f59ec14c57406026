package dev.pawl.engine;

import java.util.Optional;

/**
 * What one trace says about one rule.
 *
 * @param rule index of the rule
 * @param obligations how its obligations ended
 * @param margin the smallest distance to breaking, where one can be stated
 */
public record RuleOutcome(int rule, Obligations obligations, Optional<Margin> margin) {

  public Verdict verdict() {
    return obligations.verdict();
  }
}
