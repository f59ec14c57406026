package dev.pawl.fleet.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Lines through points, compared with what others have of the same points. */
class TrendTest {

  private static final double EXACT = 1e-12;

  /** The example of Sen 1968 (from memory; scipy 1.17.1, {@code stats.theilslopes}, gives the same). */
  @Test
  void theExampleOfItsPaper() {
    double[] x = {1, 2, 3, 4, 10, 12, 18};
    double[] y = {9, 15, 19, 20, 45, 55, 78};
    // The 0.965 quantile of the normal distribution: an interval of 93 %, as in the paper.
    Trend trend = Trend.of(x, y, 1.8119).orElseThrow();
    assertThat(trend.slope()).isCloseTo(4, within(EXACT));
    assertThat(trend.low()).isCloseTo(26.0 / 7, within(EXACT));
    assertThat(trend.high()).isCloseTo(35.0 / 8, within(EXACT));
  }

  /** By scipy 1.17.1: {@code stats.theilslopes(y, x, 0.95)} and the same with 0.999. */
  @Test
  void tiesAndAPointThatLiesAnywhere() {
    double[] x = {0, 1, 2, 4, 5, 7, 8, 8, 10, 12, 15, 21};
    double[] y = {0.31, 0.30, 0.33, 0.29, 0.30, 0.27, 0.26, 0.28, 0.05, 0.25, 0.22, 0.19};
    Trend usual = Trend.of(x, y, 1.959963984540054).orElseThrow();
    assertThat(usual.slope()).isCloseTo(-0.00625, within(EXACT));
    assertThat(usual.low()).isCloseTo(-0.008571428571428575, within(EXACT));
    assertThat(usual.high()).isCloseTo(-0.005, within(EXACT));
    Trend sure = Trend.of(x, y, 3.2905267314919255).orElseThrow();
    assertThat(sure.low()).isCloseTo(-0.02, within(EXACT));
    assertThat(sure.high()).isCloseTo(-0.002, within(EXACT));
  }

  @Test
  void pointsOfOneDayHaveNone() {
    assertThat(Trend.of(new double[] {3, 3, 3}, new double[] {1, 2, 3}, 2)).isEmpty();
  }

  /** So many points that neighbours are put together: the line that they were drawn around is found all the same. */
  @Test
  void manyPoints() {
    Random random = new Random(7);
    double[] x = IntStream.range(0, 5000).mapToDouble(i -> i / 3.0).toArray();
    double[] y = IntStream.range(0, 5000).mapToDouble(i -> 2 - 0.001 * x[i] + random.nextGaussian() * 0.1).toArray();
    Trend trend = Trend.of(x, y, 3.2905).orElseThrow();
    assertThat(trend.slope()).isCloseTo(-0.001, within(2e-5));
    assertThat(trend.high()).isBetween(trend.slope(), -0.0009);
  }
}
