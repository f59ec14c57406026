package dev.pawl.report.collect;

import dev.pawl.engine.MarginSpread;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.RuleOverview;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The margins of a rule.
 *
 * @param nearestFirst the traces with a margin, the one with the smallest first
 * @param spread how near the single obligations of all traces came; empty where the rule states nothing that measures
 *     it
 */
public record RuleMargins(List<RuleOverview.InTrace> nearestFirst, Optional<MarginSpread> spread) {

  /** A margin below this share of what is allowed is a near one. */
  private static final double NEAR = 0.1;

  public RuleMargins {
    nearestFirst = List.copyOf(nearestFirst);
  }

  public static RuleMargins of(RuleOverview overview) {
    List<RuleOverview.InTrace> sorted = overview.results().stream().filter(it -> it.result().margin().isPresent())
        .sorted(Comparator.comparingDouble(RuleMargins::value)).toList();
    return new RuleMargins(sorted, sorted.stream().flatMap(it -> margin(it).spread().stream())
        .reduce(MarginSpread::plus));
  }

  public static MarginResult margin(RuleOverview.InTrace each) {
    return each.result().margin().orElseThrow();
  }

  private static double value(RuleOverview.InTrace each) {
    return margin(each).value();
  }

  /** What the rule allows in the margins' unit; empty where it states nothing of the kind. */
  public OptionalDouble allowed() {
    return spread.isPresent() ? OptionalDouble.of(spread.get().allowed()) : OptionalDouble.empty();
  }

  /** In how many traces it was met, but by less than a tenth of what is allowed. */
  public long near() {
    return allowed().isEmpty() ? 0 : nearestFirst.stream().filter(it -> value(it) >= 0
        && value(it) < NEAR * allowed().getAsDouble()).count();
  }

  /** The margin that so many of a hundred traces do not exceed. */
  public MarginResult atMost(int percent) {
    int last = Math.max(0, (nearestFirst.size() * percent + 99) / 100 - 1);
    return margin(nearestFirst.get(last));
  }

  /** The nearest as a share of what is allowed; empty where that cannot be said. */
  public OptionalDouble nearestShare() {
    return allowed().isEmpty() ? OptionalDouble.empty()
        : OptionalDouble.of(value(nearestFirst.get(0)) / allowed().getAsDouble());
  }
}
