package dev.pawl.engine.operator;

import static dev.pawl.engine.operator.LateBeginning.NEVER;

import dev.pawl.engine.graph.Kleene;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Truth;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Conditions that look back are, at every moment, what {@code grammar/MEANING.md} defines, worked out here by a look at
 * all moments of the window.
 */
class TruthsOverTimeTest extends OverTime {

  @Test
  void heldFor() {
    agreeOnTruth(on -> new Windows.HeldFor(on.p(), span / 2, Windows.Off.NONE, NEVER), m -> {
      if (m - span < 0 || any(p, Truth.F, m - span, m)) {
        return Truth.F;
      }
      return any(p, Truth.U, m - span, m) ? Truth.U : any(p, Truth.B, m - span, m) ? Truth.B : Truth.T;
    });
  }

  @Test
  void inLast() {
    agreeOnTruth(on -> new Windows.InLast(on.p(), span / 2, Windows.Off.NONE, NEVER), m -> {
      if (any(p, Truth.T, windowStart(m), m)) {
        return Truth.T;
      }
      return any(p, Truth.U, windowStart(m), m) ? Truth.U : any(p, Truth.B, windowStart(m), m) ? Truth.B : Truth.F;
    });
  }

  @Test
  void since() {
    agreeOnTruth(on -> new Windows.Since(on.p(), on.q(), Windows.Off.NONE, NEVER), this::since);
  }

  private int since(int m) {
    return m < 0 ? Truth.F : Kleene.or(q[m], Kleene.and(p[m], since(m - 1)));
  }

  /** Half a nanosecond is a moment; the bound of 2.5 ns is five. */
  @ParameterizedTest
  @EnumSource
  void timeSince(Comparison comparison) {
    for (int tolerance : List.of(0, 1, 3)) {
      agreeOnTruth(on -> new TimeSinceCompare(comparison, on.event(on.p()),
          on.constant(2.5e-9), tolerance / 2e9, 0, NEVER), m -> {
        int happened = last(p, m, false);
        return happened < 0 || last(p, m, true) > happened ? Truth.U
            : Numbers.truth(comparison, m - happened, 5, tolerance);
      });
    }
  }

  /** The bound is a number of nanoseconds that moves, or is not known. */
  @ParameterizedTest
  @EnumSource
  void timeSinceWithABoundThatMoves(Comparison comparison) {
    agreeOnTruth(on -> new TimeSinceCompare(comparison, on.event(on.p()),
        on.graph().add(new Numbers.Arithmetic(NumExpr.Operator.MULTIPLY, on.x(), on.constant(1e-9))), 0, 0,
        NEVER), m -> {
      int happened = last(p, m, false);
      boolean known = happened >= 0 && last(p, m, true) <= happened;
      return known ? Numbers.truth(comparison, m - happened, 2 * x[m], 0) : Truth.U;
    });
  }

  @ParameterizedTest
  @EnumSource
  void mean(Comparison comparison) {
    for (double tolerance : List.of(0.0, 0.5)) {
      agreeOnTruth(on -> new MeanCompare(comparison, on.x(), span / 2,
          on.constant(0.5), tolerance), m -> Numbers.truth(comparison, mean(m), 0.5, tolerance));
    }
  }

  @ParameterizedTest
  @EnumSource
  void meanWithABoundThatMoves(Comparison comparison) {
    for (double tolerance : List.of(0.0, 0.5)) {
      agreeOnTruth(on -> new MeanCompare(comparison, on.x(), span / 2, on.y(), tolerance),
          m -> Numbers.truth(comparison, mean(m), y[m], tolerance));
    }
  }

  /**
   * Two moments to the nanosecond, whose value in between is that of the odd one; a moment's own value has no extent.
   */
  private double mean(int m) {
    int from = windowStart(m);
    if (from == m) {
      return x[m];
    }
    double area = 0;
    for (int k = from; k <= m; k++) {
      double length = k % 2 == 0 ? 0 : Math.min(k + 1, m) - Math.max(k - 1, from);
      area += Double.isNaN(x[k]) ? Double.NaN : x[k] * length;
    }
    return area / (m - from);
  }
}
