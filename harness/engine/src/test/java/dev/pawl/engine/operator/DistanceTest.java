package dev.pawl.engine.operator;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Comparison;
import org.junit.jupiter.api.Test;

/**
 * The distance of a condition follows its numbers: {@code and} is as far from breaking as its nearer side, {@code or}
 * as its farther one.
 */
class DistanceTest {
  private final Number x = new Number();
  private final Number y = new Number();
  private final Distance below = new Distance.OfComparison(Comparison.LESS, x, y);
  private final Distance above = new Distance.OfComparison(Comparison.AT_LEAST, x, new Inputs.NumConstant(0));

  /** A number that the test sets. */
  private static final class Number extends NumNode {
    @Override
    public boolean update(long moment) {
      return false;
    }
  }

  private double of(Distance distance, double newX, double newY) {
    x.value = newX;
    y.value = newY;
    return distance.now();
  }

  @Test
  void ofAComparisonIsHowFarItsSidesAreApart() {
    assertThat(of(below, 3, 5)).isEqualTo(2);
    assertThat(of(below, 5, 3)).isEqualTo(-2);
    assertThat(of(new Distance.OfComparison(Comparison.GREATER, x, y), 5, 3)).isEqualTo(2);
    assertThat(below.numbers()).containsExactly(x, y);
  }

  @Test
  void isUnknownWhereANumberIsOrWhereItIsTooGreatToState() {
    assertThat(of(below, Double.NaN, 5)).isNaN();
    assertThat(of(below, -Double.MAX_VALUE, Double.MAX_VALUE)).isNaN();
    assertThat(of(new Distance.OfPair(true, below, below), 1, Double.NaN)).isNaN();
  }

  @Test
  void ofAPairIsThatOfTheNearerOrOfTheFartherSide() {
    Distance second = new Distance.OfComparison(Comparison.GREATER, y, x);
    Distance third = new Distance.OfComparison(Comparison.GREATER, x, y);

    assertThat(of(new Distance.OfPair(false, second, third), 1, 4)).isEqualTo(-3);
    assertThat(of(new Distance.OfPair(true, second, third), 1, 4)).isEqualTo(3);
    assertThat(new Distance.OfPair(true, below, above).numbers()).startsWith(x, y, x).hasSize(4);
  }
}
