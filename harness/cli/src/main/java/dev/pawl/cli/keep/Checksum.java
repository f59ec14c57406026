package dev.pawl.cli.keep;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A file's SHA-256, on a line as {@code sha256sum} writes and reads it: a path with a line break or a backslash has
 * them escaped, and a backslash stands before the line.
 */
record Checksum(String sha256, String path) {

  private static final Pattern LINE = Pattern.compile("(\\\\?)([0-9a-f]{64}) [ *](.+)");

  String line() {
    String escaped = escaped(path);
    return (escaped.equals(path) ? "" : "\\") + sha256 + "  " + escaped;
  }

  /** The checksum that a line holds; empty for a remark and the like. */
  static Optional<Checksum> of(String line) {
    Matcher parts = LINE.matcher(line);
    return parts.matches() ? Optional.of(new Checksum(parts.group(2), parts.group(1).isEmpty() ? parts.group(3)
        : plain(parts.group(3)))) : Optional.empty();
  }

  static String escaped(String path) {
    return path.replace("\\", "\\\\").replace("\n", "\\n").replace("\r", "\\r");
  }

  static String plain(String escaped) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < escaped.length(); i++) {
      char c = escaped.charAt(i);
      if (c == '\\' && i + 1 < escaped.length()) {
        char next = escaped.charAt(++i);
        text.append(next == 'n' ? '\n' : next == 'r' ? '\r' : next);
      } else {
        text.append(c);
      }
    }
    return text.toString();
  }
}
