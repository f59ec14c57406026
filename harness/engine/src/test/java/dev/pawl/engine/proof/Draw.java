package dev.pawl.engine.proof;

import java.util.List;
import java.util.SplittableRandom;

/** A seeded source of choices. */
final class Draw {
  private final SplittableRandom random;

  Draw(long seed) {
    this.random = new SplittableRandom(seed);
  }

  boolean percent(int chance) {
    return random.nextInt(100) < chance;
  }

  boolean oneIn(int number) {
    return random.nextInt(number) == 0;
  }

  /** A whole number in {@code [from, to]}. */
  int between(int from, int to) {
    return random.nextInt(from, to + 1);
  }

  <T> T of(List<T> choices) {
    return choices.get(random.nextInt(choices.size()));
  }

  double of(double... choices) {
    return choices[random.nextInt(choices.length)];
  }

  long of(long... choices) {
    return choices[random.nextInt(choices.length)];
  }

  /** An index chosen in proportion to its weight. */
  int weighted(int... weights) {
    int total = 0;
    for (int weight : weights) {
      total += weight;
    }
    int drawn = random.nextInt(total);
    int index = 0;
    while (drawn >= weights[index]) {
      drawn -= weights[index];
      index++;
    }
    return index;
  }
}
