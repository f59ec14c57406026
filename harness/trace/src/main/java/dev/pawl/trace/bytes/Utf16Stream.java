package dev.pawl.trace.bytes;

import java.io.IOException;
import java.io.InputStream;

/**
 * A stream in which text in UTF-16 has become UTF-8; any other passes as it is. UTF-16 is known by its mark, or by two
 * characters of ASCII at the beginning, each with a zero beside it.
 */
final class Utf16Stream extends InputStream {

  private static final int BLOCK = 1 << 15;
  private static final int LONGEST = 4;
  private static final int SNIFFED = 4;

  private final InputStream stream;
  private byte[] raw = new byte[SNIFFED];
  private int rawFrom;
  private int rawTo;
  private boolean sniffed;
  private boolean coded;
  private boolean bigEndian;
  private char high;
  /** Told when what came before it has been handed on. */
  private DamagedStream damage;

  Utf16Stream(InputStream stream) {
    this.stream = stream;
  }

  @Override
  public int read() throws IOException {
    throw new UnsupportedOperationException("a feed reads blocks");
  }

  @Override
  public int read(byte[] bytes, int from, int length) throws IOException {
    if (!sniffed) {
      sniff();
    }
    if (coded) {
      return decoded(bytes, from, length);
    }
    if (rawFrom < rawTo) {
      int count = Math.min(length, rawTo - rawFrom);
      System.arraycopy(raw, rawFrom, bytes, from, count);
      rawFrom += count;
      return count;
    }
    return stream.read(bytes, from, length);
  }

  private void sniff() throws IOException {
    while (rawTo < SNIFFED) {
      int count = stream.read(raw, rawTo, SNIFFED - rawTo);
      if (count < 0) {
        break;
      }
      rawTo += count;
    }
    sniffed = true;
    if (rawTo < 2) {
      return;
    }
    boolean littleMark = is(0, 0xFF) && is(1, 0xFE) && !(rawTo == SNIFFED && is(2, 0) && is(3, 0));
    boolean bigMark = is(0, 0xFE) && is(1, 0xFF);
    boolean whole = rawTo == SNIFFED;
    boolean little = littleMark || whole && isText(0) && is(1, 0) && isText(2) && is(3, 0);
    bigEndian = bigMark || whole && is(0, 0) && isText(1) && is(2, 0) && isText(3);
    coded = little || bigEndian;
    rawFrom = littleMark || bigMark ? 2 : 0;
    if (coded) {
      byte[] block = new byte[BLOCK];
      System.arraycopy(raw, rawFrom, block, 0, rawTo - rawFrom);
      rawTo -= rawFrom;
      rawFrom = 0;
      raw = block;
    }
  }

  private boolean is(int at, int value) {
    return (raw[at] & 0xFF) == value;
  }

  private boolean isText(int at) {
    return raw[at] >= ' ' || raw[at] == '\t' || raw[at] == '\n' || raw[at] == '\r';
  }

  private int decoded(byte[] bytes, int from, int length) throws IOException {
    if (length < LONGEST) {
      return 0;
    }
    int at = from;
    while (at == from) {
      if (damage != null) {
        throw damage;
      }
      if (rawTo - rawFrom < 2 && !fill()) {
        return -1;
      }
      at = plain(bytes, at, from + length);
      while (damage == null && rawTo - rawFrom >= 2 && from + length - at >= LONGEST) {
        int first = raw[rawFrom] & 0xFF;
        int second = raw[rawFrom + 1] & 0xFF;
        rawFrom += 2;
        at = put(bytes, at, (char) (bigEndian ? first << 8 | second : second << 8 | first));
      }
    }
    return at - from;
  }

  /** Takes a stretch of ASCII; returns the place after it. */
  private int plain(byte[] bytes, int from, int to) {
    int at = from;
    int source = rawFrom;
    int low = bigEndian ? 1 : 0;
    int end = high == 0 ? Math.min(rawTo - 1, source + 2 * (to - from - LONGEST)) : source;
    while (source < end && raw[source + 1 - low] == 0 && raw[source + low] >= 0) {
      bytes[at++] = raw[source + low];
      source += 2;
    }
    rawFrom = source;
    return at;
  }

  /** Reads on; false at the end, which must be that of a whole character. */
  private boolean fill() throws IOException {
    System.arraycopy(raw, rawFrom, raw, 0, rawTo - rawFrom);
    rawTo -= rawFrom;
    rawFrom = 0;
    int count = stream.read(raw, rawTo, raw.length - rawTo);
    if (count >= 0) {
      rawTo += count;
      return rawTo > 1 || fill();
    }
    if (rawTo > 0 || high != 0) {
      throw new DamagedStream("the text in UTF-16 ends within a character", null);
    }
    return false;
  }

  private int put(byte[] bytes, int from, char c) {
    int at = from;
    if (c < 0x80 && high == 0) {
      bytes[at++] = (byte) c;
      return at;
    }
    if (high != 0 != Character.isLowSurrogate(c)) {
      damage = new DamagedStream("the text in UTF-16 has half a character", null);
      return at;
    }
    if (Character.isHighSurrogate(c)) {
      high = c;
      return at;
    }
    int point = high == 0 ? c : Character.toCodePoint(high, c);
    high = 0;
    if (point < 0x800) {
      bytes[at++] = (byte) (0xC0 | point >> 6);
    } else {
      if (point < 0x10000) {
        bytes[at++] = (byte) (0xE0 | point >> 12);
      } else {
        bytes[at++] = (byte) (0xF0 | point >> 18);
        bytes[at++] = (byte) (0x80 | point >> 12 & 0x3F);
      }
      bytes[at++] = (byte) (0x80 | point >> 6 & 0x3F);
    }
    bytes[at++] = (byte) (0x80 | point & 0x3F);
    return at;
  }

  @Override
  public void close() throws IOException {
    stream.close();
  }
}
