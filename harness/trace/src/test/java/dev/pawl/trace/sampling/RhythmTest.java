package dev.pawl.trace.sampling;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Which rows show that a signal was looked at every now and then, and which that it was logged when it changed. Times
 * in milliseconds.
 */
class RhythmTest {

  private final SplittableRandom random = new SplittableRandom(15);

  /** A bool that changes now and then, looked at every 100 ms, give or take 30 ms. */
  private long polled(int rows, int holeAfter, int changes) {
    Rhythm rhythm = new Rhythm(false);
    long longest = 0;
    long time = 0;
    long value = 0;
    for (int row = 0; row < rows; row++) {
      long gap = row == holeAfter ? 25_000 : random.nextInt(70, 131);
      longest = row == 0 || row == holeAfter ? longest : Math.max(longest, gap);
      time += gap;
      value ^= random.nextInt(changes) == 0 ? 1 : 0;
      rhythm.row(time, value);
    }
    assertThat(rhythm.period()).isIn(0L, longest);
    return rhythm.period();
  }

  @Test
  void whatIsLookedAtOftenEnoughIsSeenToBe() {
    for (int run = 0; run < 50; run++) {
      assertThat(polled(30 + 20 * run, -1, 3 + run)).isPositive();
      assertThat(polled(60 + 20 * run, 40, 3 + run)).isPositive();
    }
  }

  @Test
  void aNumberThatIsAnotherAtEveryLookIsSampled() {
    Rhythm rhythm = new Rhythm(true);
    for (int row = 0; row < 40; row++) {
      rhythm.row(row * 100L + random.nextInt(0, 31), row);
    }
    assertThat(rhythm.period()).isBetween(100L, 130L);
  }

  @Test
  void aLogOfChangesIsNever() {
    Rhythm regular = new Rhythm(false);
    for (int row = 0; row < 1000; row++) {
      regular.row(row * 100L, row % 2);
    }
    assertThat(regular.period()).isZero();

    for (int run = 0; run < 50; run++) {
      Rhythm number = new Rhythm(true);
      long time = 0;
      for (int row = 0; row < 500; row++) {
        time += 10 * (random.nextInt(30) == 0 ? random.nextInt(50, 2000) : random.nextInt(1, 4));
        number.row(time, row);
      }
      assertThat(number.period()).isZero();
    }
  }

  /** Each change is logged when it happens, and every value once more each second. */
  @Test
  void aLogOfChangesThatRepeatsItselfNowAndThenIsNot() {
    for (int run = 0; run < 50; run++) {
      Rhythm rhythm = new Rhythm(false);
      long value = 0;
      for (int second = 0; second < 400; second++) {
        rhythm.row(second * 1000L, value);
        if (random.nextInt(10 + run) == 0) {
          value ^= 1;
          rhythm.row(second * 1000L + random.nextInt(1, 1000), value);
        }
      }
      assertThat(rhythm.period()).isZero();
    }
  }

  @Test
  void aFewRowsShowNothing() {
    assertThat(polled(7, -1, 5)).isZero();
  }

  /** A clip of a stop is short, and a late stop in it must not come out as one in time. */
  @Test
  void aShortClipIsSeenToBePolled() {
    assertThat(polled(15, -1, 5)).isPositive();
  }

  /** Whether few changes come within the gaps between looks or cut one in two is seen of each of many logs. */
  @Test
  void fewChangesAmongManyLooksDoNotHideThem() {
    for (int run = 0; run < 1000; run++) {
      assertThat(fewChanges(400, 30, run % 8, true)).isBetween(130L, 160L);
    }
  }

  @Test
  void fewChangesThatCutTheGapsAreMostlySeen() {
    int zero = 0;
    for (int run = 0; run < 1000; run++) {
      zero += fewChanges(400, 3, 4 + run % 8, false) == 0 ? 1 : 0;
    }
    assertThat(zero).isGreaterThan(900);
  }

  /** A row each 100 ms, early or late; changes come with a row, or between two. */
  private long fewChanges(int rows, int late, int changes, boolean polled) {
    Rhythm rhythm = new Rhythm(false);
    long time = 0;
    long value = 0;
    for (int row = 1; row <= rows; row++) {
      long next = row * 100L + random.nextInt(-late, late + 1);
      if (row % 40 == 20 && row / 40 < changes) {
        value ^= 1;
        if (!polled) {
          rhythm.row(random.nextLong(time + 1, next), value);
        }
      }
      time = next;
      rhythm.row(time, value);
    }
    return rhythm.period();
  }
}
