package dev.pawl.trace.time;

import java.util.Locale;
import java.util.Optional;

/** How the times of a trace are written; always stated, never guessed. */
public enum TimeScale {
  SECONDS("s", 1_000_000_000L),
  MILLISECONDS("ms", 1_000_000L),
  MICROSECONDS("us", 1_000L),
  NANOSECONDS("ns", 1L),
  /** Date and time of day with an offset; nanoseconds count from 1970-01-01T00:00:00Z. */
  RFC_3339("rfc3339", 0);

  /** All spellings, for messages. */
  public static final String CHOICES = "s, ms, us, ns or rfc3339";

  private final String label;
  private final long nanoseconds;

  TimeScale(String label, long nanoseconds) {
    this.label = label;
    this.nanoseconds = nanoseconds;
  }

  /** As written in options and bindings. */
  public String label() {
    return label;
  }

  /** Nanoseconds in one unit; 0 for date-times. */
  public long nanoseconds() {
    return nanoseconds;
  }

  /** The scale with the given label, in any case. */
  public static Optional<TimeScale> of(String label) {
    for (TimeScale scale : values()) {
      if (scale.label.equals(label.toLowerCase(Locale.ROOT))) {
        return Optional.of(scale);
      }
    }
    return Optional.empty();
  }

  /**
   * The unit that the name of a time column states, such as {@code ms} for {@code time_ms}; empty for plain
   * {@code time}.
   */
  public static Optional<TimeScale> ofColumn(String column) {
    return column.startsWith("time_") ? of(column.substring("time_".length())) : Optional.empty();
  }

  /** The name of a time column that states this scale. */
  public String column() {
    return this == RFC_3339 ? "time" : "time_" + label;
  }
}
