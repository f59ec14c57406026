package dev.pawl.trace.vcd;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What one step of a dump's time marks is worth.
 *
 * @param nanoseconds so many nanoseconds
 * @param steps are so many steps
 */
record Timescale(long nanoseconds, long steps) {

  private static final List<String> UNITS = List.of("s", "ms", "us", "ns", "ps", "fs");
  private static final int NANOSECONDS = UNITS.indexOf("ns");
  private static final Pattern FORM = Pattern.compile("([1-9][0-9]{0,5})([a-z]{1,2})");

  /** One nanosecond. */
  static final Timescale NANOSECOND = new Timescale(1, 1);

  /**
   * The timescale as written, such as {@code 10ns} or {@code 10 ns}; some tools write other counts than 1, 10 and 100.
   */
  static Optional<Timescale> of(String written) {
    Matcher form = FORM.matcher(written.replace(" ", "").toLowerCase(Locale.ROOT));
    int unit = form.matches() ? UNITS.indexOf(form.group(2)) : -1;
    return unit < 0 ? Optional.empty() : Optional.of(of(Long.parseLong(form.group(1)), unit));
  }

  private static Timescale of(long count, int unit) {
    long nanoseconds = count;
    for (int i = unit; i < NANOSECONDS; i++) {
      nanoseconds *= 1000;
    }
    long steps = 1;
    for (int i = NANOSECONDS; i < unit; i++) {
      steps *= 1000;
    }
    for (long common : new long[] {2, 5}) {
      while (nanoseconds % common == 0 && steps % common == 0) {
        nanoseconds /= common;
        steps /= common;
      }
    }
    return new Timescale(nanoseconds, steps);
  }
}
