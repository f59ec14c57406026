package dev.pawl.report.html;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The ticks of an axis and their labels, by its ends in seconds from the origin. */
class TimeAxisTest {

  private static final long S = 1_000_000_000L;

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "-0.4 | 0.6   | \u2212400 ms \u2212200 ms 0 s +200 ms +400 ms +600 ms",
      "-125 | 39    | \u2212120 s \u2212100 s \u221280 s \u221260 s \u221240 s \u221220 s 0 s +20 s",
      "-60  | 600   | 0 s +2 min +4 min +6 min +8 min +10 min",
      "0    | 9000  | 0 s +30 min +60 min +90 min +2 h +2 h 30 min",
      "0    | 1e6   | 0 s +48 h +96 h +144 h +192 h +240 h"})
  void ticksAreAtRoundDistancesInOneUnit(double from, double to, String labels) {
    TimeAxis axis = new TimeAxis(Math.round(from * S), Math.round(to * S), 0, 100);
    List<String> shown = axis.ticks(0).stream().map(tick -> axis.label(tick, 0)).toList();
    assertThat(String.join(" ", shown)).isEqualTo(labels);
  }
}
