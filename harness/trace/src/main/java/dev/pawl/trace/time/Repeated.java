package dev.pawl.trace.time;

import java.util.Locale;
import java.util.Optional;

/** Which of two is meant by a local time that comes twice, as clocks go back. */
public enum Repeated {
  /** Not stated: such a time cannot be read. */
  UNSTATED,
  EARLIER,
  LATER,
  /** The earlier one, unless that is before the time read before. */
  IN_ORDER;

  /** All spellings, for messages. */
  public static final String CHOICES = "in order, earlier or later";

  /** What is stated by the given words. */
  public static Optional<Repeated> of(String words) {
    for (Repeated each : values()) {
      if (each != UNSTATED && each.name().toLowerCase(Locale.ROOT).replace('_', ' ').equals(words)) {
        return Optional.of(each);
      }
    }
    return Optional.empty();
  }
}
