package dev.pawl.trace.json;

import dev.pawl.trace.bytes.Decimals;
import java.nio.charset.StandardCharsets;

/**
 * A flat JSON object in its ordinary spelling, found in its bytes without a parser: ASCII, no escapes, each key once,
 * and only the keys of a row of one event. Whatever is not surely that is left to {@link JsonRow}.
 */
final class OrdinaryRow {

  private static final int TIME = 0;
  private static final int SIGNAL = 1;
  private static final int VALUE = 2;
  private static final int QUALITY = 3;

  private final byte[][] keys;
  private final int[] from = new int[4];
  private final int[] to = new int[4];
  private final boolean[] text = new boolean[4];
  private int at;

  OrdinaryRow(String time, String signal, String value, String quality) {
    String[] names = {time, signal, value, quality};
    keys = new byte[names.length][];
    for (int i = 0; i < names.length; i++) {
      keys[i] = names[i].getBytes(StandardCharsets.UTF_8);
    }
  }

  int timeFrom() {
    return from[TIME];
  }

  int timeTo() {
    return to[TIME];
  }

  int signalFrom() {
    return from[SIGNAL];
  }

  int signalTo() {
    return to[SIGNAL];
  }

  int valueFrom() {
    return from[VALUE];
  }

  int valueTo() {
    return to[VALUE];
  }

  int qualityFrom() {
    return from[QUALITY];
  }

  int qualityTo() {
    return to[QUALITY];
  }

  /** Finds the parts of a row that starts at {@code start}; returns the place of the line break after it, or -1. */
  int scan(byte[] bytes, int start) {
    for (int i = 0; i < to.length; i++) {
      from[i] = 0;
      to[i] = 0;
    }
    if (bytes[start] != '{') {
      return -1;
    }
    at = start + 1;
    do {
      if (!member(bytes)) {
        return -1;
      }
      blanks(bytes);
    } while (bytes[at++] == ',');
    boolean closed = bytes[at - 1] == '}';
    blanks(bytes);
    boolean whole = from[TIME] > 0 && from[SIGNAL] > 0 && text[SIGNAL] && from[VALUE] > 0;
    return closed && whole && bytes[at] == '\n' ? at : -1;
  }

  private void blanks(byte[] bytes) {
    while (bytes[at] == ' ' || bytes[at] == '\t' || bytes[at] == '\r') {
      at++;
    }
  }

  private boolean member(byte[] bytes) {
    blanks(bytes);
    int keyFrom = at + 1;
    if (bytes[at] != '"' || !string(bytes)) {
      return false;
    }
    int key = key(bytes, keyFrom, at - 1);
    blanks(bytes);
    if (key < 0 || from[key] > 0 || bytes[at++] != ':') {
      return false;
    }
    blanks(bytes);
    text[key] = bytes[at] == '"';
    int valueFrom = text[key] ? at + 1 : at;
    if (!(text[key] ? string(bytes) : bare(bytes))) {
      return false;
    }
    from[key] = valueFrom;
    to[key] = text[key] ? at - 1 : at;
    return true;
  }

  /** Goes from an opening quote to just after the closing one. */
  private boolean string(byte[] bytes) {
    at++;
    while (bytes[at] >= ' ' && bytes[at] != '"' && bytes[at] != '\\') {
      at++;
    }
    return bytes[at++] == '"';
  }

  /** Goes over true, false or a number as RFC 8259, section 6, spells it. */
  private boolean bare(byte[] bytes) {
    int start = at;
    if (bytes[at] == 't' || bytes[at] == 'f') {
      return word(bytes, bytes[at] == 't' ? "true" : "false");
    }
    if (bytes[at] == '-') {
      at++;
    }
    int digits = at;
    digits(bytes);
    if (at == digits || bytes[digits] == '0' && at > digits + 1) {
      return false;
    }
    if (bytes[at] == '.') {
      int point = at++;
      digits(bytes);
      if (at == point + 1) {
        return false;
      }
    }
    return (bytes[at] | 0x20) != 'e' && at > start;
  }

  private void digits(byte[] bytes) {
    while (Decimals.isDigit(bytes[at])) {
      at++;
    }
  }

  private boolean word(byte[] bytes, String word) {
    for (int i = 0; i < word.length(); i++) {
      if (bytes[at++] != word.charAt(i)) {
        return false;
      }
    }
    return bytes[at] == ',' || bytes[at] == '}' || bytes[at] == ' ';
  }

  private int key(byte[] bytes, int start, int stop) {
    for (int key = 0; key < keys.length; key++) {
      byte[] name = keys[key];
      if (name.length == stop - start && startsWith(bytes, start, name)) {
        return key;
      }
    }
    return -1;
  }

  private static boolean startsWith(byte[] bytes, int start, byte[] name) {
    for (int i = 0; i < name.length; i++) {
      if (bytes[start + i] != name[i]) {
        return false;
      }
    }
    return true;
  }
}
