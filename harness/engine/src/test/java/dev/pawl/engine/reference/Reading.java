package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.BoolExpr;
import java.util.HashMap;
import java.util.Map;

/** The conditions of one rule, as it reads them at another's moment. */
final class Reading {
  private final Moments moments;
  private final TruthTables truths;
  private final long resolution;
  private final Map<BoolExpr, Condition> conditions = new HashMap<>();

  Reading(Moments moments, TruthTables truths, long resolution) {
    this.moments = moments;
    this.truths = truths;
    this.resolution = resolution;
  }

  Condition of(BoolExpr expression) {
    Condition known = conditions.get(expression);
    if (known == null) {
      known = Condition.of(expression, truths::of, moments, resolution, false);
      conditions.put(expression, known);
    }
    return known;
  }
}
