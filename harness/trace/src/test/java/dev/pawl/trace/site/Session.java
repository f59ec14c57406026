package dev.pawl.trace.site;

import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/** Two hours of a lift, looked at every 37.125 s, over the night in which clocks of central Europe are put back. */
final class Session {

  /**
   * Half an hour before 03:00 of summer time, which becomes 02:00 of winter time (Directive 2000/84/EC, from memory).
   */
  static final Instant START = Instant.parse("2026-10-25T00:30:00Z");

  private static final int ROWS = 200;
  private static final long STEP_MS = 37_125;
  private static final List<String> MODES = List.of("off", "manual", "automatic");

  /** What was so at one look. */
  record Row(long ms, boolean run, boolean healthy, BigDecimal mph, BigDecimal heat, String mode) {

    Instant at() {
      return START.plusMillis(ms);
    }

    int modeNumber() {
      return MODES.indexOf(mode);
    }
  }

  private Session() {}

  static List<Row> rows() {
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < ROWS; i++) {
      rows.add(new Row(i * STEP_MS, i % 3 != 0, i % 41 != 40, BigDecimal.valueOf(i * 7L % 600, 2),
          BigDecimal.valueOf(i * 13L % 900 - 300, 1), MODES.get(i / 20 % 3)));
    }
    return rows;
  }

  /** What the readers have to make of it, in the times of the session's own. */
  static List<Recording.Event> events() {
    List<Recording.Event> events = new ArrayList<>();
    for (Row row : rows()) {
      long time = row.ms() * 1_000_000;
      events.add(new Recording.Event(time, 0, row.run() ? 1 : 0));
      events.add(new Recording.Event(time, 1, row.healthy() ? 1 : 0));
      events.add(new Recording.Event(time, 2, Books.si(si(row.mph(), "0.44704", "0"))));
      events.add(new Recording.Event(time, 3, Books.si(si(row.heat(), "1", "273.15"))));
      events.add(new Recording.Event(time, 4, row.modeNumber()));
    }
    return events;
  }

  /** A mile is 1609.344 m (international yard and pound agreement of 1959, from memory). */
  private static double si(BigDecimal number, String factor, String offset) {
    return number.multiply(new BigDecimal(factor)).add(new BigDecimal(offset)).doubleValue();
  }
}
