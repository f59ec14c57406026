package dev.pawl.trace.time;

import dev.pawl.trace.bytes.Words;

/**
 * The last date, hour and minute seen, as the bytes before and after the seconds, with the time at which that minute
 * began: equal bytes mean the same minute, so that only the seconds have to be read.
 */
final class MinuteMemory {

  private static final int LONGEST = 40;
  private static final int LONGEST_SUFFIX = 8;

  private final long[] words = new long[LONGEST / 8];
  private int length = LONGEST + 1;
  private long suffix;
  private int suffixLength;
  private boolean seconds;
  private long start;

  /** Bytes before the seconds. */
  int length() {
    return length;
  }

  /** Whether seconds follow. */
  boolean hasSeconds() {
    return seconds;
  }

  /** Bytes after the seconds and their decimals. */
  int suffixLength() {
    return suffixLength;
  }

  /** Nanoseconds from the epoch. */
  long start() {
    return start;
  }

  /** Whether the bytes before the seconds are those of the minute. */
  boolean matches(byte[] bytes, int from) {
    if (length > LONGEST) {
      return false;
    }
    int at = 0;
    for (; at + 8 <= length; at += 8) {
      if (Words.at(bytes, from + at) != words[at >>> 3]) {
        return false;
      }
    }
    return at == length || Words.head(Words.at(bytes, from + at), length - at) == words[at >>> 3];
  }

  /** Whether the bytes after the seconds are those of the minute. */
  boolean ends(byte[] bytes, int from) {
    return suffixLength == 0 || Words.head(Words.at(bytes, from), suffixLength) == suffix;
  }

  /**
   * Keeps a minute.
   *
   * @param from where its text starts
   * @param second where its seconds start; its end, if it has none
   * @param rest where what stands after the seconds and their decimals starts
   * @param to where its text ends
   */
  void remember(byte[] bytes, int from, int second, int rest, int to, long minuteStart) {
    if (second - from > LONGEST || to - rest > LONGEST_SUFFIX) {
      forget();
      return;
    }
    length = second - from;
    for (int at = 0; at < length; at += 8) {
      words[at >>> 3] = Words.head(Words.at(bytes, from + at), length - at);
    }
    suffixLength = to - rest;
    suffix = Words.head(Words.at(bytes, rest), suffixLength);
    seconds = second < to;
    start = minuteStart;
  }

  void forget() {
    length = LONGEST + 1;
  }
}
