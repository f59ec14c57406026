package dev.pawl.report.words;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.report.model.TimeBase;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TimeTextTest {

  @ParameterizedTest
  @CsvSource(textBlock = """
      0, 0 s
      1, 1 ns
      999, 999 ns
      1500, 1.5 us
      500000000, 500 ms
      999999999, 999.999 ms
      1000000000, 1 s
      12500000000, 12.5 s
      -250000000, -250 ms
      119999000000, 119.999 s
      120000000000, 2 min
      723000000000, 12 min 3 s
      7200000000000, 2 h
      7500000000000, 2 h 5 min
      """)
  void durations(long time, String text) {
    assertThat(TimeText.duration(time)).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource(textBlock = """
      START, 0, 0.000 s
      START, 723450000000, 723.450 s
      START, -1, -0.000000001 s
      START, 1000001, 0.001000001 s
      EPOCH, 0, 1970-01-01T00:00:00.000Z
      EPOCH, 1777626723450000000, 2026-05-01T09:12:03.450Z
      EPOCH, -1, 1969-12-31T23:59:59.999999999Z
      """)
  void times(TimeBase.Kind kind, long time, String text) {
    assertThat(TimeText.at(new TimeBase(kind, ""), time)).isEqualTo(text);
  }

  /** Either side of the hour at which clocks are put back. */
  @ParameterizedTest
  @CsvSource(textBlock = """
      Europe/Vienna, 1792889999500000000, 2026-10-25T02:59:59.500+02:00
      Europe/Vienna, 1792890000000000000, 2026-10-25T02:00:00.000+01:00
      +05:30, 1777626723450000000, 2026-05-01T14:42:03.450+05:30
      UTC, 1777626723450000000, 2026-05-01T09:12:03.450Z
      """)
  void timesByTheClockOfASite(String zone, long time, String text) {
    assertThat(TimeText.at(TimeBase.in(zone), time)).isEqualTo(text);
  }
}
