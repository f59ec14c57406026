package dev.pawl.trace.time;

import dev.pawl.trace.bytes.Decimals;
import dev.pawl.trace.bytes.Words;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * A reader of times of one scale. Digits finer than a nanosecond are cut off, and such times counted.
 *
 * <p>{@link #scan} takes the ordinary spellings in a few word operations and remembers the last date and minute;
 * {@link #read} takes every valid spelling and says what is wrong with an invalid one.
 */
public final class TimeReader {

  /** What {@link #read} gives for a text that is no time; {@link #complaint} then says why. */
  public static final long INVALID = Long.MIN_VALUE;

  /**
   * Times go this many nanoseconds from zero in both directions: the engine counts in halves, with room to add to them.
   */
  public static final long LIMIT = Long.MAX_VALUE / 4;

  private static final long[] TENS = new long[19];

  static {
    TENS[0] = 1;
    for (int i = 1; i < TENS.length; i++) {
      TENS[i] = TENS[i - 1] * 10;
    }
  }

  private final TimeScale scale;
  private final long unit;
  private final int unitDigits;
  private final long mostUnits;
  private final Rfc3339 calendar = new Rfc3339();
  private final MinuteMemory minute = new MinuteMemory();
  private final byte[] beginning = "2000-01-01T00:00:00Z".getBytes(StandardCharsets.US_ASCII);
  private String complaint = "";
  private long finer;
  private long time;

  public TimeReader(TimeScale scale) {
    this.scale = scale;
    this.unit = scale.nanoseconds();
    this.unitDigits = scale == TimeScale.RFC_3339 ? 9 : Long.toString(unit).length() - 1;
    this.mostUnits = scale == TimeScale.RFC_3339 ? 0 : LIMIT / unit - 1;
  }

  public TimeScale scale() {
    return scale;
  }

  /** Number of times that stated something finer than a nanosecond, which was cut off. */
  public long finer() {
    return finer;
  }

  /** Why the last {@link #read} gave {@link #INVALID}. */
  public String complaint() {
    return complaint;
  }

  /** The time that the last successful {@link #scan} found, in nanoseconds. */
  public long time() {
    return time;
  }

  /**
   * Tries to read an ordinary time that ends at a separator.
   *
   * @return the place of the separator; -1 if it is not an ordinary one, with nothing said about whether it is valid
   */
  public int scan(byte[] bytes, int from, byte separator) {
    return scale == TimeScale.RFC_3339 ? scanCalendar(bytes, from, separator) : scanNumber(bytes, from, separator);
  }

  private int scanNumber(byte[] bytes, int from, byte separator) {
    long word = Words.at(bytes, from);
    long others = Words.nonDigits(word);
    int at;
    long whole;
    if (others != 0) {
      int count = Words.first(others);
      whole = Words.number(word, count);
      at = from + count;
    } else {
      long second = Words.at(bytes, from + 8);
      long secondOthers = Words.nonDigits(second);
      if (secondOthers == 0) {
        return -1;
      }
      int count = Words.first(secondOthers);
      whole = Words.number(word, 8) * TENS[count] + Words.number(second, count);
      at = from + 8 + count;
    }
    if (bytes[at] == separator && at != from && whole <= mostUnits) {
      time = whole * unit;
      return at;
    }
    return bytes[at] == '.' && at != from ? scanFraction(bytes, at + 1, separator, whole) : -1;
  }

  /** The digits after the point: at most as many as there are down to the nanosecond, and at most seven. */
  private int scanFraction(byte[] bytes, int from, byte separator, long whole) {
    long word = Words.at(bytes, from);
    long others = Words.nonDigits(word);
    int count = Words.first(others);
    if (others == 0 || count == 0 || count > unitDigits || bytes[from + count] != separator || whole > mostUnits) {
      return -1;
    }
    time = whole * unit + Words.number(word, count) * TENS[unitDigits - count];
    return from + count;
  }

  /** As {@code 2026-11-25T09:27:39.123Z}, in the same minute as the time before and in UTC. */
  private int scanCalendar(byte[] bytes, int from, byte separator) {
    if (!minute.matches(bytes, from) && !learnMinute(bytes, from)) {
      return -1;
    }
    int second = (bytes[from + 17] - '0') * 10 + bytes[from + 18] - '0';
    if (bytes[from + 16] != ':' || !Decimals.isDigit(bytes[from + 17]) || !Decimals.isDigit(bytes[from + 18])
        || second > 59) {
      return -1;
    }
    int at = from + 19;
    long nanoseconds = 0;
    if (bytes[at] == '.') {
      long word = Words.at(bytes, at + 1);
      long others = Words.nonDigits(word);
      int count = Words.first(others);
      if (others == 0 || count == 0) {
        return -1;
      }
      nanoseconds = Words.number(word, count) * TENS[9 - count];
      at += 1 + count;
    }
    if (bytes[at] != 'Z' || bytes[at + 1] != separator) {
      return -1;
    }
    time = minute.start() + second * 1_000_000_000L + nanoseconds;
    return at + 1;
  }

  /** Works out when the minute begins that the first sixteen bytes name. */
  private boolean learnMinute(byte[] bytes, int from) {
    System.arraycopy(bytes, from, beginning, 0, 16);
    long start = calendar.parse(beginning, 0, beginning.length);
    if (start == INVALID) {
      return false;
    }
    minute.remember(bytes, from, start);
    return true;
  }

  /**
   * Reads a time that fills the given bytes.
   *
   * @return nanoseconds, or {@link #INVALID}
   */
  public long read(byte[] bytes, int from, int to) {
    return scale == TimeScale.RFC_3339 ? readCalendar(bytes, from, to) : readNumber(bytes, from, to);
  }

  private long readCalendar(byte[] bytes, int from, int to) {
    long result = calendar.parse(bytes, from, to);
    if (result == INVALID) {
      complaint = calendar.complaint();
      return INVALID;
    }
    finer += calendar.finer() ? 1 : 0;
    if (bytes[to - 1] == 'Z') {
      minute.remember(bytes, from, calendar.minuteStart());
    }
    return result;
  }

  private long readNumber(byte[] bytes, int from, int to) {
    boolean negative = from < to && bytes[from] == '-';
    int at = negative ? from + 1 : from;
    int firstDigit = at;
    long whole = 0;
    while (at < to && Decimals.isDigit(bytes[at])) {
      whole = whole > Long.MAX_VALUE / 10 - 1 ? Long.MAX_VALUE : whole * 10 + bytes[at] - '0';
      at++;
    }
    int count = at - firstDigit;
    long fraction = 0;
    boolean cut = false;
    if (at < to && bytes[at] == '.') {
      int point = at++;
      for (; at < to && Decimals.isDigit(bytes[at]); at++) {
        int place = at - point;
        fraction += place <= unitDigits ? (bytes[at] - '0') * TENS[unitDigits - place] : 0;
        cut |= place > unitDigits && bytes[at] != '0';
      }
      count += at - point - 1;
    }
    if (count == 0 || at != to) {
      complaint = "is no number of " + scale.label();
      return INVALID;
    }
    if (whole > mostUnits) {
      complaint = "is beyond the 73 years that a trace can last";
      return INVALID;
    }
    finer += cut ? 1 : 0;
    long result = whole * unit + fraction;
    // Cutting goes toward the past on both sides of zero, so that order is kept.
    return negative ? -result - (cut ? 1 : 0) : result;
  }

  /** Whether the text could be a date-time, for advice when the scale is not stated. */
  public static Optional<TimeScale> lookOf(byte[] bytes, int from, int to) {
    boolean date = to - from >= 10 && bytes[from + 4] == '-' && bytes[from + 7] == '-';
    return date ? Optional.of(TimeScale.RFC_3339) : Optional.empty();
  }
}
