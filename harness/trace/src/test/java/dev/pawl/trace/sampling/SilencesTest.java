package dev.pawl.trace.sampling;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A signal of which nothing is heard is believed for a while. */
class SilencesTest {

  private final List<String> told = new ArrayList<>();
  private final Silences silences = new Silences(new long[] {10, 25, 0}, new EventSink() {
    @Override
    public void event(long time, int signal, long value, long line) {
      told.add(time + " s" + signal + " " + (value == UNKNOWN ? "?" : value));
    }

    @Override
    public void advanceTo(long time) {
      told.add(time + " .");
    }
  });

  @Test
  void eachFallsSilentInItsTurnUntilItsNextRow() {
    silences.event(0, 1, 1, 1);
    silences.event(5, 0, 1, 2);
    silences.event(15, 2, 1, 3);
    silences.event(40, 2, 0, 4);
    silences.event(41, 0, 1, 5);
    silences.event(51, 0, 1, 6);
    silences.finish(70);

    assertThat(told).containsExactly("0 s1 1", "5 s0 1", "15 s2 1", "16 s0 ?", "26 s1 ?", "40 s2 0", "41 s0 1",
        "51 s0 1", "62 s0 ?", "70 .");
    assertThat(silences.count(0)).isEqualTo(2);
    assertThat(silences.longest(0)).isEqualTo(36);
    assertThat(silences.longestFrom(0)).isEqualTo(5);
    assertThat(silences.longest(1)).isEqualTo(70);
  }
}
