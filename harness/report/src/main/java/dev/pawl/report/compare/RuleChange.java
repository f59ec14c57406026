package dev.pawl.report.compare;

import dev.pawl.engine.Verdict;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import java.util.Locale;
import java.util.Optional;

/**
 * One rule of a trace in two reports.
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

  /** Whether anything of it changed. */
  boolean isChange() {
    return verdictChanged() || obligationsChanged() || marginChanged();
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
   * One that was broken and is met now is mended, even where nothing tries it.
   */
  public boolean noLongerExercised() {
    if (before.isEmpty() || after.isEmpty() || after.get().verdict() != Verdict.NOT_EXERCISED) {
      return false;
    }
    return switch (before.get().verdict()) {
      case HELD, UNDECIDED -> true;
      case BROKEN -> after.get().obligations().met() == 0;
      case NOT_EXERCISED -> false;
    };
  }

  /** Which way a rule went, the gravest first. */
  public enum Way {
    NEWLY_BROKEN, NO_LONGER_EXERCISED, WORSE, OTHER;

    /** As a label: {@code newly broken}. */
    public String words() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  /** Which way it went; worse is also a rule that was broken before and is so more often, or by more. */
  public Way way() {
    if (newlyBroken()) {
      return Way.NEWLY_BROKEN;
    }
    if (noLongerExercised()) {
      return Way.NO_LONGER_EXERCISED;
    }
    boolean less = before.isPresent() && (after.isEmpty() || worth(after.get().verdict()) < worth(before.get()
        .verdict()) || brokenMore(before.get(), after.get()));
    return less ? Way.WORSE : Way.OTHER;
  }

  /** Whether the later report shows less for the rule than the earlier one, or nothing. */
  public boolean isWorse() {
    return way() != Way.OTHER;
  }

  private static boolean brokenMore(RuleDigest before, RuleDigest after) {
    return before.verdict() == Verdict.BROKEN && after.verdict() == Verdict.BROKEN
        && (after.obligations().missed() > before.obligations().missed()
        || before.margin().isPresent() && after.margin().isPresent()
        && after.margin().get().value() < before.margin().get().value());
  }

  private static int worth(Verdict verdict) {
    return switch (verdict) {
      case HELD -> 2;
      case NOT_EXERCISED, UNDECIDED -> 1;
      case BROKEN -> 0;
    };
  }

  /** Whether the rule is broken now and was not before. */
  public boolean newlyBroken() {
    return after.isPresent() && after.get().verdict() == Verdict.BROKEN
        && (before.isEmpty() || before.get().verdict() != Verdict.BROKEN);
  }
}
