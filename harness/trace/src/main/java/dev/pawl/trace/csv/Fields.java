package dev.pawl.trace.csv;

import dev.pawl.trace.bytes.Feed;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * The fields of one record, by the grammar of RFC 4180, section 2: quoted fields may hold separators, line breaks and
 * doubled quotes; spaces belong to fields. Line breaks may be LF alone.
 */
final class Fields {

  /** The record goes on after the window. */
  static final int UNFINISHED = -1;

  private final byte separator;
  private final boolean spaces;
  private int count;
  private byte[][] sources = new byte[16][];
  private int[] from = new int[16];
  private int[] to = new int[16];
  private int[] rawFrom = new int[16];
  private byte[] unquoted = new byte[Feed.LEAD + Feed.PAD];
  private int unquotedEnd;
  private int lineBreaks;
  private int fault;
  private String complaint = "";

  /**
   * A reader of records.
   *
   * @param spaces whether spaces around a field without quotes belong to it
   */
  Fields(char separator, boolean spaces) {
    this.separator = (byte) separator;
    this.spaces = spaces;
  }

  int count() {
    return count;
  }

  byte[] source(int field) {
    return sources[field];
  }

  int from(int field) {
    return from[field];
  }

  int to(int field) {
    return to[field];
  }

  /** Where the field starts in the window, its quote included. */
  int rawFrom(int field) {
    return rawFrom[field];
  }

  String text(int field) {
    return new String(sources[field], from[field], to[field] - from[field], StandardCharsets.UTF_8);
  }

  /** Number of lines that the record covers. */
  int lines() {
    return lineBreaks + 1;
  }

  /** Where the record breaks the grammar, in the window; 0 if it does not. */
  int fault() {
    return fault;
  }

  /** Whether it says nothing at all. */
  boolean isEmpty() {
    for (int field = 0; field < count; field++) {
      if (from[field] < to[field]) {
        return false;
      }
    }
    return true;
  }

  /** How the record breaks the grammar. */
  String complaint() {
    return complaint;
  }

  /**
   * Takes a record apart.
   *
   * @param end end of the window, just after a line break
   * @return the start of the next record, or {@link #UNFINISHED}
   */
  int split(byte[] bytes, int start, int end) {
    count = 0;
    lineBreaks = 0;
    fault = 0;
    unquotedEnd = Feed.LEAD;
    int at = start;
    while (true) {
      at = spaces ? at : afterSpaces(bytes, at);
      at = bytes[at] == '"' ? quoted(bytes, at, end) : bare(bytes, at);
      if (at < 0) {
        return UNFINISHED;
      }
      if (bytes[at] == separator) {
        at++;
      } else {
        return at + (bytes[at] == '\r' ? 2 : 1);
      }
    }
  }

  /** Takes a field without quotes; returns the place of the separator or line break after it. */
  private int bare(byte[] bytes, int start) {
    int at = start;
    while (bytes[at] != separator && bytes[at] != '\n') {
      if (bytes[at] == '"' && fault == 0) {
        complain(at, "a quote stands inside a field that does not start with one");
      }
      at++;
    }
    boolean crlf = bytes[at] == '\n' && at > start && bytes[at - 1] == '\r';
    int stop = crlf ? at - 1 : at;
    add(bytes, start, spaces ? stop : beforeSpaces(bytes, start, stop), start);
    return stop;
  }

  /** Takes a quoted field; returns the place of the separator or line break after it, or {@link #UNFINISHED}. */
  private int quoted(byte[] bytes, int start, int end) {
    int textFrom = unquotedEnd;
    int at = start + 1;
    while (true) {
      if (at >= end) {
        return UNFINISHED;
      }
      byte value = bytes[at];
      if (value == '"' && bytes[at + 1] != '"') {
        break;
      }
      lineBreaks += value == '\n' ? 1 : 0;
      append(value);
      at += value == '"' ? 2 : 1;
    }
    at++;
    int stop = at;
    while (bytes[stop] != separator && bytes[stop] != '\n') {
      stop++;
    }
    boolean crlf = bytes[stop] == '\n' && stop > at && bytes[stop - 1] == '\r';
    stop = crlf ? stop - 1 : stop;
    if ((spaces ? stop : beforeSpaces(bytes, at, stop)) > at && fault == 0) {
      complain(at, "text follows the closing quote of a field");
    }
    add(unquoted, textFrom, unquotedEnd, start);
    return stop;
  }

  static int afterSpaces(byte[] bytes, int from) {
    int at = from;
    while (bytes[at] == ' ') {
      at++;
    }
    return at;
  }

  static int beforeSpaces(byte[] bytes, int from, int to) {
    int at = to;
    while (at > from && bytes[at - 1] == ' ') {
      at--;
    }
    return at;
  }

  private void complain(int at, String reason) {
    fault = at;
    complaint = reason;
  }

  private void append(byte value) {
    if (unquotedEnd + Feed.PAD >= unquoted.length) {
      byte[] larger = Arrays.copyOf(unquoted, 2 * unquoted.length);
      for (int i = 0; i < count; i++) {
        sources[i] = sources[i] == unquoted ? larger : sources[i];
      }
      unquoted = larger;
    }
    unquoted[unquotedEnd++] = value;
  }

  private void add(byte[] source, int start, int stop, int rawStart) {
    if (count == from.length) {
      sources = Arrays.copyOf(sources, 2 * count);
      from = Arrays.copyOf(from, 2 * count);
      to = Arrays.copyOf(to, 2 * count);
      rawFrom = Arrays.copyOf(rawFrom, 2 * count);
    }
    sources[count] = source;
    from[count] = start;
    to[count] = stop;
    rawFrom[count] = rawStart;
    count++;
  }
}
