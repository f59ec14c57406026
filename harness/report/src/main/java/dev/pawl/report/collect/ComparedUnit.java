package dev.pawl.report.collect;

import dev.pawl.grammar.rules.model.Comparisons;
import dev.pawl.grammar.rules.model.Expr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.ArrayList;
import java.util.List;

/**
 * The unit that a margin is shown in: that of the first signal in this kind of quantity which the rule compares, on its
 * own or within a mean or a sum; else that of one which the rule reads, or its ride has; else the SI one.
 *
 * @param unit as written
 * @param scale from it to SI base units
 */
record ComparedUnit(String unit, Scale scale) {

  static ComparedUnit of(Rule rule, String siUnit, RuleBook book) {
    if (siUnit.equals("s")) {
      return new ComparedUnit(siUnit, Scale.SAME);
    }
    List<Integer> signals = new ArrayList<>();
    boolean plain = siUnit.isEmpty();
    Comparisons.of(rule).stream().filter(comparison -> comparison.dimension().siUnit().equals(siUnit))
        .limit(plain ? 1 : Long.MAX_VALUE).forEach(comparison -> {
      gather(comparison.left(), signals);
      gather(comparison.right(), signals);
    });
    if (!plain) {
      signals.addAll(RuleParts.signals(rule, book));
      book.signals().stream().map(Signal::index).forEach(signals::add);
    }
    for (int signal : signals) {
      if (book.signals().get(signal).type() instanceof ValueType.Quantity quantity
          && quantity.dimension().siUnit().equals(siUnit)) {
        return difference(quantity, siUnit);
      }
    }
    return new ComparedUnit(siUnit, Scale.SAME);
  }

  /** What happens within a count has no part in its unit. */
  private static void gather(Expr number, List<Integer> signals) {
    if (number instanceof NumExpr.Signal signal) {
      signals.add(signal.signal());
    }
    number.parts().expressions().stream().filter(NumExpr.class::isInstance).forEach(part -> gather(part, signals));
  }

  /** A margin is a difference, and one of temperatures is said in kelvin: 60 degC would be a temperature. */
  private static ComparedUnit difference(ValueType.Quantity quantity, String siUnit) {
    Scale scale = quantity.scale();
    return scale.offset() != 0 ? new ComparedUnit(siUnit, Scale.SAME) : new ComparedUnit(quantity.unit(), scale);
  }
}
