package dev.pawl.engine.operator;

import static dev.pawl.engine.operator.LateBeginning.NEVER;

import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Comparison;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Numbers that look back are, at every moment, what {@code grammar/MEANING.md} defines, worked out here by a look at
 * all moments of the window.
 */
class NumbersOverTimeTest extends OverTime {

  @Test
  void countInLast() {
    agreeOnNumber(on -> new Counts.InLast(on.event(on.p()), span / 2, NEVER), m -> count(windowStart(m), m));
  }

  @Test
  void countSince() {
    agreeOnNumber(on -> new Counts.Since(on.event(on.p()), on.event(on.q()), NEVER), m -> {
      int anchor = last(q, m, false);
      return anchor < 0 || last(q, m, true) >= anchor ? Double.NaN : count(anchor, m);
    });
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void extreme(boolean greatest) {
    agreeOnNumber(on -> new Extremes.Extreme(greatest, on.x(), span / 2), m -> extreme(greatest, m));
  }

  @Test
  void swing() {
    agreeOnNumber(on -> new Extremes.Swing(on.x(), span / 2), m -> extreme(true, m) - extreme(false, m));
  }

  private double extreme(boolean greatest, int m) {
    double found = x[m];
    for (int k = windowStart(m); k <= m; k++) {
      found = greatest ? Math.max(found, x[k]) : Math.min(found, x[k]);
    }
    return found;
  }

  /**
   * A number over a window that only a comparison reads need not be right, as long as the comparison comes out right.
   */
  @ParameterizedTest
  @EnumSource
  void comparedOverAWindow(Comparison comparison) {
    for (double tolerance : List.of(0.0, 1.5)) {
      for (double limit : List.of(0.0, 1.0, 2.0)) {
        agreeOnTruth(
            on -> compare(on, comparison, new Counts.InLast(on.event(on.p()), span / 2, NEVER), limit, tolerance),
            m -> Numbers.truth(comparison, count(windowStart(m), m), limit, tolerance));
        agreeOnTruth(on -> compare(on, comparison, new Extremes.Extreme(true, on.x(), span / 2), limit, tolerance),
            m -> Numbers.truth(comparison, extreme(true, m), limit, tolerance));
        agreeOnTruth(on -> compare(on, comparison, new Extremes.Extreme(false, on.x(), span / 2), limit, tolerance),
            m -> Numbers.truth(comparison, extreme(false, m), limit, tolerance));
        agreeOnTruth(on -> compare(on, comparison, new Extremes.Swing(on.x(), span / 2), limit, tolerance),
            m -> Numbers.truth(comparison, extreme(true, m) - extreme(false, m), limit, tolerance));
      }
    }
  }

  private static Numbers.Compare compare(Operands on, Comparison comparison, NumNode number, double limit,
      double tolerance) {
    on.graph().add(number);
    return new Numbers.Compare(comparison, number, on.constant(limit), tolerance);
  }
}
