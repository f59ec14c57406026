package dev.pawl.run.source;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The offset of a clock out of what two loggers have seen of signals whose true changes are drawn. */
class ClockMatchTest {

  private static final long MS = 1_000_000;
  private static final int SIGNALS = 3;

  /** Two logs of drawn changes: each is late by up to the jitter, and misses some. */
  private static List<ClockMatch.Seen> drawn(Random random, long ahead, long jitter, double missed, int changes) {
    List<ClockMatch.Seen> signals = new ArrayList<>();
    for (int signal = 0; signal < SIGNALS; signal++) {
      List<Long> ours = new ArrayList<>();
      List<Long> theirs = new ArrayList<>();
      long time = 0;
      for (int change = 0; change < changes; change++) {
        time += (2000 + random.nextInt(40_000)) * MS;
        if (random.nextDouble() >= missed) {
          ours.add(time + ahead + random.nextLong(jitter + 1));
        }
        if (random.nextDouble() >= missed) {
          theirs.add(time + random.nextLong(jitter + 1));
        }
      }
      signals.add(new ClockMatch.Seen(array(ours), array(theirs)));
    }
    return signals;
  }

  private static long[] array(List<Long> times) {
    return times.stream().mapToLong(Long::longValue).toArray();
  }

  @Test
  void theTrueOffsetIsWithinWhatItMayBeOff() {
    Random random = new Random(16);
    int found = 0;
    for (int round = 0; round < 400; round++) {
      long ahead = random.nextLong(7_200_000 * MS) - 3_600_000 * MS;
      long jitter = new long[] {0, 5 * MS, 100 * MS, 1000 * MS}[round % 4];
      Optional<ClockMatch> match = ClockMatch.of(drawn(random, ahead, jitter, round % 3 == 0 ? 0.05 : 0,
          2 + random.nextInt(20)));
      if (match.isPresent()) {
        found++;
        assertThat(Math.abs(match.get().ahead() - ahead)).as("round %s: %s for %s", round, match.get(), ahead)
            .isLessThanOrEqualTo(match.get().off());
        assertThat(match.get().off()).as("round %s", round).isLessThanOrEqualTo(5 * jitter);
      }
    }
    assertThat(found).isGreaterThan(300);
  }

  @Test
  void ofTwoRidesNothingIsEstimated() {
    Random random = new Random(17);
    for (int round = 0; round < 200; round++) {
      List<ClockMatch.Seen> one = drawn(random, 0, 0, 0, 8);
      List<ClockMatch.Seen> other = drawn(random, 0, 0, 0, 8);
      List<ClockMatch.Seen> mixed = new ArrayList<>();
      for (int signal = 0; signal < SIGNALS; signal++) {
        mixed.add(new ClockMatch.Seen(one.get(signal).ours(), other.get(signal).theirs()));
      }
      assertThat(ClockMatch.of(mixed)).as("round %s", round).isEmpty();
    }
  }

  /** A train each minute to the millisecond: an offset of a minute is as good but for one change. */
  @Test
  void aRideThatRepeatsItselfTellsNothing() {
    long[] times = new long[12];
    for (int i = 0; i < times.length; i++) {
      times[i] = i * 60_000 * MS;
    }
    assertThat(ClockMatch.of(List.of(new ClockMatch.Seen(times, times)))).isEmpty();
  }

  /** One has logged the middle of what the other has. */
  @Test
  void aShortLogIsFoundInALongOne() {
    List<ClockMatch.Seen> whole = drawn(new Random(18), 500 * MS, 0, 0, 40);
    List<ClockMatch.Seen> part = whole.stream().map(seen -> new ClockMatch.Seen(Arrays.stream(seen.ours())
        .filter(time -> time > 200_000 * MS && time < 400_000 * MS).toArray(), seen.theirs())).toList();
    ClockMatch match = ClockMatch.of(part).orElseThrow();
    assertThat(match.ahead()).isEqualTo(500 * MS);
    assertThat(match.off()).isZero();
    assertThat(match.changes()).isEqualTo(part.stream().mapToInt(seen -> seen.ours().length).sum());
    assertThat(match.lonely()).isZero();
  }
}
