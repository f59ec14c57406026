package dev.pawl.report.model;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleParts;
import java.util.List;
import java.util.Optional;

/**
 * What one trace says about one rule.
 *
 * @param rule the rule
 * @param obligations how its obligations ended
 * @param margin the smallest distance to breaking; of a rule that broke, by how much, where that has a measure
 * @param seen how much the trace let it see
 * @param broken the first findings that break it, in order of time; {@code obligations.missed()} says how many there
 *     were
 * @param doubtful the first findings that leave it undecided, in order of time
 */
public record RuleResult(Rule rule, Obligations obligations, Optional<MarginResult> margin, Seen seen,
    List<FindingResult> broken, List<FindingResult> doubtful) {

  public RuleResult {
    broken = List.copyOf(broken);
    doubtful = List.copyOf(doubtful);
  }

  public Verdict verdict() {
    return obligations.verdict(seen.tried());
  }

  /**
   * The counts found wrong that have a part in the verdict: what broke it rests on them, or what would have been met.
   */
  public List<WrongCount> wrongCounts() {
    long memory = RuleParts.zonesMatterFor(rule);
    return verdict() == Verdict.BROKEN ? seen.wrongCounts().stream()
        .filter(count -> broken.stream().anyMatch(finding -> count.concerns(finding, memory))).toList()
        : obligations.miscounted() > 0 ? seen.wrongCounts() : List.of();
  }

  /** How many obligations, and possible triggers, were left undecided. */
  public long undecided() {
    return obligations.undecided();
  }
}
