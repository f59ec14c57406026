package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Spans of time as options spell them: a number and its unit, such as {@code 10ms} or {@code 1.5 s}. */
public final class TimeSpan {

  /** The form, for options that have a span of time as a part. */
  static final String FORM = "\\d+(?:\\.\\d+)?\\s*(?:ns|us|ms|s|min|h)";

  private static final Pattern PARTS = Pattern.compile("(\\d+(?:\\.\\d+)?)\\s*(ns|us|ms|s|min|h)");
  private static final Map<String, Long> UNITS = Map.of("ns", 1L, "us", 1_000L, "ms", 1_000_000L, "s", 1_000_000_000L,
      "min", 60_000_000_000L, "h", 3_600_000_000_000L);
  private static final BigDecimal MOST = BigDecimal.valueOf(1_000_000L * 3_600)
      .multiply(BigDecimal.valueOf(1_000_000_000L));

  private TimeSpan() {}

  /** The span, if one is given. */
  public static Optional<Duration> optional(String option, Optional<String> word) {
    return word.map(text -> of(option, text));
  }

  static Duration of(String option, String text) {
    Matcher parts = PARTS.matcher(text.strip());
    if (parts.matches()) {
      BigDecimal span = new BigDecimal(parts.group(1)).multiply(BigDecimal.valueOf(UNITS.get(parts.group(2))));
      if (span.compareTo(MOST) <= 0) {
        return Duration.ofNanos(span.longValue());
      }
    }
    throw new CommandException(option + ": '" + text
        + "' is not a span of time; write a number and ns, us, ms, s, min or h, such as 10ms");
  }
}
