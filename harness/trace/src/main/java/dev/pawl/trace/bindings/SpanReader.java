package dev.pawl.trace.bindings;

import java.math.BigDecimal;
import java.util.Map;
import java.util.OptionalLong;

/** Reads a span of time, such as {@code 100 ms}, of a nanosecond to a year. */
final class SpanReader {

  private static final Map<String, Long> UNITS = Map.of("us", 1_000L, "ms", 1_000_000L, "s", 1_000_000_000L, "min",
      60_000_000_000L);
  private static final BigDecimal MOST = BigDecimal.valueOf(UNITS.get("min") * 60 * 24 * 365);

  private SpanReader() {}

  /** Nanoseconds; empty if it is none. */
  static OptionalLong read(Token number, Token unit) {
    if (!number.text().matches("\\d{1,9}(\\.\\d{1,9})?") || !UNITS.containsKey(unit.text())) {
      return OptionalLong.empty();
    }
    BigDecimal time = new BigDecimal(number.text()).multiply(BigDecimal.valueOf(UNITS.get(unit.text())));
    return time.compareTo(BigDecimal.ONE) < 0 || time.compareTo(MOST) > 0 ? OptionalLong.empty()
        : OptionalLong.of(time.longValue());
  }
}
