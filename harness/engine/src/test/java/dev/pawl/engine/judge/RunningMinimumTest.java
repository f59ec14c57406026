package dev.pawl.engine.judge;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * The running minimum is the one that a look through all past values finds, at the first moment in the range at which
 * it stood.
 */
class RunningMinimumTest {
  private static final int ROUNDS = 60;
  private static final int STEPS = 60;

  private final SplittableRandom random = new SplittableRandom(13);
  private RunningMinimum minimum;
  private List<Double> values;

  @Test
  void findsWhatALookThroughAllValuesFinds() {
    int unknown = 0;
    for (int round = 0; round < ROUNDS; round++) {
      minimum = new RunningMinimum();
      values = new ArrayList<>();
      int forgotten = 0;
      for (int step = 0; step < STEPS; step++) {
        follow(random.nextInt(1, 4));
        if (random.nextInt(4) == 0) {
          forgotten = random.nextInt(forgotten, values.size());
          minimum.forgetBefore(forgotten);
        }
        int from = random.nextInt(forgotten, values.size());
        unknown += agreeFrom(from) ? 0 : 1;
      }
    }
    assertThat(unknown).as("ranges without any known value").isBetween(10, ROUNDS * STEPS / 2);
  }

  /** The value before stands for the moments in between; the new one may be the same. */
  private void follow(int moments) {
    double before = values.isEmpty() ? Double.NaN : values.get(values.size() - 1);
    for (int between = 1; between < moments; between++) {
      values.add(before);
    }
    double value = random.nextInt(4) == 0 ? before : random.nextInt(5) == 0 ? Double.NaN : random.nextInt(6);
    minimum.follow(value, values.size());
    values.add(value);
  }

  /** Whether there is a known value in the range. */
  private boolean agreeFrom(int from) {
    int place = -1;
    for (int moment = from; moment < values.size(); moment++) {
      double value = values.get(moment);
      if (!Double.isNaN(value) && (place < 0 || value < values.get(place))) {
        place = moment;
      }
    }
    assertThat(minimum.find(from)).as("from %d in %s", from, values).isEqualTo(place >= 0);
    if (place >= 0) {
      assertThat(minimum.least()).isEqualTo(values.get(place));
      assertThat(minimum.place()).as("from %d in %s", from, values).isEqualTo(place);
    }
    return place >= 0;
  }
}
