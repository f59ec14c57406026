package dev.pawl.mqtt.payload;

import dev.pawl.trace.bytes.NameTable;
import dev.pawl.trace.time.TimeReader;
import java.nio.charset.StandardCharsets;

/** Times in texts rather than in the middle of a file. */
final class TimeTexts {

  private TimeTexts() {}

  /** Nanoseconds, or {@link TimeReader#INVALID}. */
  static long read(TimeReader reader, String text) {
    byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
    byte[] padded = new byte[utf8.length + 2 * NameTable.SLACK];
    System.arraycopy(utf8, 0, padded, NameTable.SLACK, utf8.length);
    return reader.read(padded, NameTable.SLACK, NameTable.SLACK + utf8.length);
  }
}
