package dev.pawl.trace;

import static dev.pawl.trace.bytes.Decompression.starts;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * What the first bytes of a trace give away.
 *
 * @param format the format they have
 * @param skipped bytes to leave out: a byte order mark
 * @param obstacle why they can be no trace
 */
record Content(TraceFormat format, int skipped, Optional<Obstacle> obstacle) {

  /** How many bytes are looked at. */
  static final int SNIFFED = 512;

  /** An array of all rows; one in each line is a row, and a word in brackets may stand above a table. */
  private static final Pattern ONE_ARRAY = Pattern.compile("\\[\\s*[\\[{]");

  /** Why bytes can be no trace, and what to do. */
  record Obstacle(String message, String hint) {}

  static Content of(byte[] first, Optional<String> damage, String remedy) {
    if (damage.isPresent() && first.length == 0) {
      return new Content(TraceFormat.CSV, 0, Optional.of(new Obstacle(damage.get(), remedy)));
    }
    int skipped = starts(first, 0xEF, 0xBB, 0xBF) ? 3 : 0;
    String text = new String(first, skipped, first.length - skipped, StandardCharsets.ISO_8859_1).stripLeading();
    Optional<Obstacle> obstacle = obstacle(first, text);
    return new Content(TraceFormat.of(text), skipped, obstacle);
  }

  private static Optional<Obstacle> obstacle(byte[] first, String text) {
    if (starts(first, 0xFF, 0xFE) || starts(first, 0, 0, 0xFE, 0xFF)) {
      return Optional.of(new Obstacle("the trace is written in UTF-32", "save it as UTF-8"));
    }
    if (starts(first, 'B', 'Z', 'h') || starts(first, '7', 'z', 0xBC, 0xAF) || starts(first, 'R', 'a', 'r', '!')) {
      return Optional.of(new Obstacle("the trace is packed in a way that is not read here",
          "unpack it; gzip, zstd, xz and zip can be read as they are"));
    }
    if (ONE_ARRAY.matcher(text).lookingAt()) {
      return Optional.of(new Obstacle("the trace is one JSON array",
          "write JSON Lines: one object in each line, with no brackets round them and no commas between"));
    }
    for (byte value : first) {
      if (value == 0) {
        return Optional.of(new Obstacle("the trace is binary data, not text",
            "give a trace as " + TraceFormat.inWords()));
      }
    }
    return Optional.empty();
  }
}
