package dev.pawl.demo;

import java.io.IOException;
import java.io.Writer;
import java.time.Instant;

/** Writes what changes from scan to scan as CSV, one row a change: {@code time,signal,value}, times as RFC 3339. */
final class TraceLog {

  /** An invented day. */
  static final Instant START = Instant.parse("2026-05-16T09:00:00Z");
  private static final int HEARTBEAT = 100;

  private final Writer out;
  private final double[] written = new double[Tag.values().length];
  private final StringBuilder row = new StringBuilder(80);

  TraceLog(Writer out) throws IOException {
    this.out = out;
    out.write("time,signal,value\n");
  }

  /**
   * Writes the rows of one scan; the first one's hold every signal, and the air pressure comes every second as a sign
   * of life.
   */
  void scan(ScanImage image, int scan) throws IOException {
    String time = null;
    for (Tag tag : Tag.all()) {
      double value = image.value(tag);
      boolean alive = tag == Tag.BRAKE_AIR && scan % HEARTBEAT == 0;
      if (scan == 0 || alive || value != written[tag.ordinal()]) {
        written[tag.ordinal()] = value;
        time = time == null ? time(scan) : time;
        row.setLength(0);
        row.append(time).append(',').append(tag.label()).append(',');
        append(tag, value);
        out.append(row.append('\n'));
      }
    }
  }

  private static String time(int scan) {
    Instant now = START.plusMillis(10L * scan);
    String text = now.toString();
    return text.length() == "2026-05-16T09:00:00Z".length() ? text.replace("Z", ".000Z") : text;
  }

  private void append(Tag tag, double value) {
    switch (tag.kind()) {
      case SWITCH -> row.append(value != 0 ? "true" : "false");
      case MODE -> row.append(OperatingMode.values()[(int) value].label());
      case NUMBER -> {
        long hundredths = Math.round(value * 100);
        row.append(hundredths / 100).append('.').append(hundredths / 10 % 10).append(hundredths % 10);
      }
    }
  }
}
