package dev.pawl.trace.vcd;

import java.util.List;
import java.util.Optional;

/**
 * What one step of a dump's time marks is worth.
 *
 * @param nanoseconds nanoseconds in a step, or 1 where a step is smaller
 * @param steps steps in a nanosecond, or 1 where a step is larger
 */
record Timescale(long nanoseconds, long steps) {

  private static final List<String> UNITS = List.of("s", "ms", "us", "ns", "ps", "fs");

  /** One nanosecond. */
  static final Timescale NANOSECOND = new Timescale(1, 1);

  /** The timescale as written, such as {@code 10ns} or {@code 10 ns}. */
  static Optional<Timescale> of(String written) {
    String text = written.replace(" ", "");
    for (String count : List.of("100", "10", "1")) {
      if (text.startsWith(count) && UNITS.contains(text.substring(count.length()))) {
        return Optional.of(of(Long.parseLong(count), UNITS.indexOf(text.substring(count.length()))));
      }
    }
    return Optional.empty();
  }

  private static Timescale of(long count, int unit) {
    long nanoseconds = count;
    for (int i = unit; i < UNITS.indexOf("ns"); i++) {
      nanoseconds *= 1000;
    }
    long steps = 1;
    for (int i = UNITS.indexOf("ns"); i < unit; i++) {
      steps *= 1000;
    }
    return steps == 1 ? new Timescale(nanoseconds, 1) : new Timescale(1, steps / count);
  }
}
