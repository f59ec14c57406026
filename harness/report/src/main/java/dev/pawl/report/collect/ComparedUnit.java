package dev.pawl.report.collect;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.ValueType;

/**
 * The unit that a margin is shown in: that of the first signal which the rule compares in this kind of quantity, else
 * the SI one.
 *
 * @param unit as written
 * @param scale from it to SI base units
 */
record ComparedUnit(String unit, Scale scale) {

  static ComparedUnit of(Rule rule, String siUnit, RuleBook book) {
    if (!siUnit.equals("s")) {
      for (BoolExpr.Compare comparison : Comparisons.of(rule)) {
        for (NumExpr side : new NumExpr[] {comparison.left(), comparison.right()}) {
          if (side instanceof NumExpr.Signal signal
              && book.signals().get(signal.signal()).type() instanceof ValueType.Quantity quantity
              && quantity.dimension().siUnit().equals(siUnit)) {
            return difference(quantity, siUnit);
          }
        }
      }
    }
    return new ComparedUnit(siUnit, Scale.SAME);
  }

  /** A margin is a difference, and one of temperatures is said in kelvin: 60 degC would be a temperature. */
  private static ComparedUnit difference(ValueType.Quantity quantity, String siUnit) {
    Scale scale = quantity.scale();
    return scale.offset() != 0 ? new ComparedUnit(siUnit, Scale.SAME) : new ComparedUnit(quantity.unit(), scale);
  }
}
