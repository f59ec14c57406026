package dev.pawl.trace.intake;

import java.nio.charset.StandardCharsets;
import java.util.Locale;

/** How far a logged value can be trusted. Anything but good makes the signal unknown. */
public enum Quality {
  GOOD,
  NOT_GOOD,
  /** A word that is none of the known ones. */
  UNRECOGNISED;

  /** All spellings, for messages. */
  public static final String CHOICES = "good or 192; bad or 0, uncertain or 64, stale or 500";

  /** The quality that a word or number states, in any case; an empty one states good. */
  public static Quality of(byte[] bytes, int from, int to) {
    if (from == to) {
      return GOOD;
    }
    if (to - from > 16) {
      return UNRECOGNISED;
    }
    return switch (new String(bytes, from, to - from, StandardCharsets.UTF_8).toLowerCase(Locale.ROOT)) {
      case "good", "192" -> GOOD;
      case "bad", "0", "uncertain", "64", "stale", "500" -> NOT_GOOD;
      default -> UNRECOGNISED;
    };
  }
}
