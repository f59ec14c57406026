package dev.pawl.report.compare;

import dev.pawl.engine.Verdict;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import java.util.Optional;

/**
 * One rule that is not the same in two reports.
 *
 * @param trace the trace, as the later report calls it, or the earlier one where the later has none
 * @param before what it was; empty where only the later report has the rule
 * @param after what it is; empty where only the earlier report has the rule
 */
public record RuleChange(String trace, Optional<RuleDigest> before, Optional<RuleDigest> after) {

  /** The rule as either report gives it. */
  public RuleDigest either() {
    return after.or(() -> before).orElseThrow();
  }

  public boolean verdictChanged() {
    return before.isEmpty() || after.isEmpty() || before.get().verdict() != after.get().verdict();
  }

  public boolean obligationsChanged() {
    return before.isPresent() && after.isPresent() && !before.get().obligations().equals(after.get().obligations());
  }

  public boolean marginChanged() {
    return before.isPresent() && after.isPresent() && !before.get().margin().equals(after.get().margin());
  }

  /**
   * Whether the rule came into play before, and does not any more: whatever it was then, now nothing is shown about it.
   */
  public boolean noLongerExercised() {
    return before.isPresent() && before.get().verdict() != Verdict.NOT_EXERCISED
        && after.isPresent() && after.get().verdict() == Verdict.NOT_EXERCISED;
  }

  /** Whether the rule is broken now and was not before. */
  public boolean newlyBroken() {
    return after.isPresent() && after.get().verdict() == Verdict.BROKEN
        && (before.isEmpty() || before.get().verdict() != Verdict.BROKEN);
  }
}
