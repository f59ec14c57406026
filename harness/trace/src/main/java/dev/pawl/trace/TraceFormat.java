package dev.pawl.trace;

import java.util.Locale;
import java.util.Optional;

/** The formats of traces. */
public enum TraceFormat {
  /** Comma-separated, one event or one time in a row. */
  CSV,
  /** JSON Lines. */
  JSON,
  /** Value change dump, IEEE Std 1364. */
  VCD;

  /** The format of the given name, in any case. */
  public static Optional<TraceFormat> of(String name) {
    for (TraceFormat format : values()) {
      if (format.name().equals(name.toUpperCase(Locale.ROOT))) {
        return Optional.of(format);
      }
    }
    return Optional.empty();
  }
}
