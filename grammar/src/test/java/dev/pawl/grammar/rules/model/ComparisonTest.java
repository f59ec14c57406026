package dev.pawl.grammar.rules.model;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class ComparisonTest {

  /**
   * For the left side less than, equal to, and greater than the right: whether it holds; and the distance of 1 to 3, of
   * 2 to 2, of 3 to 1.
   */
  @ParameterizedTest
  @CsvSource({
      "EQUAL,     false, true,  false, -2, 0, -2",
      "NOT_EQUAL, true,  false, true,  2,  0, 2",
      "LESS,      true,  false, false, 2,  0, -2",
      "AT_MOST,   true,  true,  false, 2,  0, -2",
      "GREATER,   false, false, true,  -2, 0, 2",
      "AT_LEAST,  false, true,  true,  -2, 0, 2"})
  void holdsAsItsNameSays(Comparison comparison, boolean less, boolean equal, boolean greater, double ofLess,
      double ofEqual, double ofGreater) {
    assertThat(comparison.holds(1.0, 3.0)).isEqualTo(comparison.holds(1L, 3L)).isEqualTo(less);
    assertThat(comparison.holds(2.0, 2.0)).isEqualTo(comparison.holds(2L, 2L)).isEqualTo(equal);
    assertThat(comparison.holds(3.0, 1.0)).isEqualTo(comparison.holds(3L, 1L)).isEqualTo(greater);
    assertThat(comparison.distance(1, 3)).isEqualTo(ofLess);
    assertThat(Math.abs(comparison.distance(2, 2))).isEqualTo(ofEqual);
    assertThat(comparison.distance(3, 1)).isEqualTo(ofGreater);
    assertThat(comparison.distance(3, Double.NaN)).isNaN();
  }

  @ParameterizedTest
  @EnumSource
  void itsNegationHoldsWhereItDoesNot(Comparison comparison) {
    for (int left = 0; left < 3; left++) {
      assertThat(comparison.negated().holds(left, 1)).isNotEqualTo(comparison.holds(left, 1));
      assertThat(comparison.negated().holds((double) left, 1)).isNotEqualTo(comparison.holds((double) left, 1));
    }
  }

  @ParameterizedTest
  @EnumSource
  void itsMirrorHoldsInTheOtherOrder(Comparison comparison) {
    for (int left = 0; left < 3; left++) {
      assertThat(comparison.mirrored().holds(1, left)).isEqualTo(comparison.holds(left, 1));
    }
  }
}
