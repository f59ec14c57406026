package dev.pawl.trace.bindings;

import java.math.BigDecimal;
import java.util.Map;
import java.util.OptionalLong;

/** Durations as bindings files state them: a number and a unit. */
final class Durations {

  private static final Map<String, Long> UNITS = Map.of("us", 1_000L, "ms", 1_000_000L, "s", 1_000_000_000L, "min", 60_000_000_000L);
  private static final BigDecimal MOST = BigDecimal.valueOf(UNITS.get("min") * 60 * 24 * 365);

  private Durations() {}

  /** Nanoseconds, from one to a year; empty if it is no such duration. */
  static OptionalLong read(Token number, Token unit) {
    boolean sound = number.text().matches("\\d{1,9}(\\.\\d{1,9})?") && UNITS.containsKey(unit.text());
    BigDecimal time = sound ? new BigDecimal(number.text()).multiply(BigDecimal.valueOf(UNITS.get(unit.text()))) : BigDecimal.ZERO;
    return time.compareTo(BigDecimal.ONE) < 0 || time.compareTo(MOST) > 0 ? OptionalLong.empty() : OptionalLong.of(time.longValue());
  }
}
