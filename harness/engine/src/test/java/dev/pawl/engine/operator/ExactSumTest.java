package dev.pawl.engine.operator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * A sum over a sliding window is, after a million additions and removals, that of decimal arithmetic without rounding.
 */
class ExactSumTest {

  @Test
  void doesNotDrift() {
    SplittableRandom random = new SplittableRandom(7);
    ExactSum sum = new ExactSum();
    double plain = 0;
    Deque<Double> window = new ArrayDeque<>();
    for (int step = 0; step < 1_000_000; step++) {
      double term = random.nextDouble() * (step % 1000 == 0 ? 1e12 : 1);
      sum.add(term);
      plain += term;
      window.addLast(term);
      if (window.size() > 100) {
        plain -= window.peekFirst();
        sum.add(-window.removeFirst());
      }
    }
    while (window.size() > 50) {
      plain -= window.peekFirst();
      sum.add(-window.removeFirst());
    }
    BigDecimal exact = window.stream().map(BigDecimal::new).reduce(BigDecimal.ZERO, BigDecimal::add);

    assertThat(sum.plus(0)).isCloseTo(exact.doubleValue(), within(1e-12));
    assertThat(sum.plus(0.25)).isCloseTo(exact.doubleValue() + 0.25, within(1e-12));
    assertThat(plain).as("a plain sum, for comparison").isNotCloseTo(exact.doubleValue(), within(1e-6));
  }
}
