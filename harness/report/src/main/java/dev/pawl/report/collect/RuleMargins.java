package dev.pawl.report.collect;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.RuleOverview;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/**
 * The smallest margins of a rule, one for each trace that has one, the nearest to breaking first.
 *
 * @param nearestFirst the traces with a margin
 * @param allowed what the rule allows in the margins' unit: the time for a response, or the number compared with; empty
 *     where it states neither
 */
public record RuleMargins(List<RuleOverview.InTrace> nearestFirst, OptionalDouble allowed) {

  /** A margin below this share of what is allowed is a near one. */
  private static final double NEAR = 0.1;

  public RuleMargins {
    nearestFirst = List.copyOf(nearestFirst);
  }

  public static RuleMargins of(RuleOverview overview, RuleBook book) {
    List<RuleOverview.InTrace> sorted = overview.results().stream().filter(it -> it.result().margin().isPresent())
        .sorted(Comparator.comparingDouble(RuleMargins::value)).toList();
    return new RuleMargins(sorted, sorted.isEmpty() ? OptionalDouble.empty()
        : allowed(overview.rule(), margin(sorted.get(0)), book));
  }

  private static OptionalDouble allowed(Rule rule, MarginResult margin, RuleBook book) {
    if (margin.isTime()) {
      return rule.duty() instanceof Rule.When when && when.demand() instanceof Demand.Within within
          && within.within() > 0 ? OptionalDouble.of(within.within() / 1e9) : OptionalDouble.empty();
    }
    for (BoolExpr.Compare compare : Comparisons.of(rule)) {
      NumExpr bound = compare.right() instanceof NumExpr.Constant ? compare.right() : compare.left();
      ComparedUnit unit = ComparedUnit.of(rule, compare.dimension().siUnit(), book);
      if (bound instanceof NumExpr.Constant constant && unit.unit().equals(margin.unit()) && constant.value() != 0) {
        return OptionalDouble.of(Math.abs(unit.scale().originNumber(constant.value())));
      }
    }
    return OptionalDouble.empty();
  }

  public static MarginResult margin(RuleOverview.InTrace each) {
    return each.result().margin().orElseThrow();
  }

  private static double value(RuleOverview.InTrace each) {
    return margin(each).value();
  }

  /** In how many traces it was met, but by less than a tenth of what is allowed. */
  public long near() {
    return allowed.isEmpty() ? 0 : nearestFirst.stream().filter(it -> value(it) >= 0
        && value(it) < NEAR * allowed.getAsDouble()).count();
  }

  /** The margin that so many of a hundred traces do not exceed. */
  public MarginResult atMost(int percent) {
    int last = Math.max(0, (nearestFirst.size() * percent + 99) / 100 - 1);
    return margin(nearestFirst.get(last));
  }

  /** The nearest as a share of what is allowed; empty where that cannot be said. */
  public OptionalDouble nearestShare() {
    return allowed.isEmpty() ? OptionalDouble.empty()
        : OptionalDouble.of(value(nearestFirst.get(0)) / allowed.getAsDouble());
  }
}
