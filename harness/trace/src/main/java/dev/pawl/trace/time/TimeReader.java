package dev.pawl.trace.time;

import dev.pawl.trace.bytes.Decimals;
import dev.pawl.trace.bytes.Words;
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

  /** Times that come no more than this late are rows out of order, not clocks that were put back. */
  private static final long JITTER = 60_000_000_000L;

  private static final long[] TENS = new long[19];

  static {
    TENS[0] = 1;
    for (int i = 1; i < TENS.length; i++) {
      TENS[i] = TENS[i - 1] * 10;
    }
  }

  private final TimeForm form;
  private final TimeScale scale;
  private final long unit;
  private final int unitDigits;
  private final long mostUnits;
  private final byte point;
  private final DateReader dates;
  private final boolean dated;
  private final boolean calendar;
  private final LocalClock clock;
  private final MinuteMemory minute = new MinuteMemory();
  private String complaint = "";
  private Optional<String> remedy = Optional.empty();
  private long finer;
  private long time;
  /** Whether the last time was one of two, and which of them depended on the time before. */
  private boolean open;
  private int jointAt;
  private byte joint;
  /** Whether a time has been read, so that the form is right. */
  private boolean proven;

  public TimeReader(TimeScale scale) {
    this(TimeForm.of(Optional.of(scale)), '.');
  }

  /**
   * A reader of times of a stated form; where nothing is stated, of RFC 3339.
   *
   * @param point what stands before the decimals of a number
   */
  public TimeReader(TimeForm form, char point) {
    this.form = form;
    this.scale = form.unit().orElse(TimeScale.RFC_3339);
    this.unit = scale.nanoseconds();
    this.dated = scale == TimeScale.RFC_3339;
    this.unitDigits = dated ? 9 : Long.toString(unit).length() - 1;
    this.mostUnits = dated ? 0 : LIMIT / unit - 1;
    this.point = (byte) point;
    this.dates = form.written().<DateReader>map(WrittenTimeReader::new).orElseGet(Rfc3339::new);
    this.calendar = form.epoch() || dated && form.written().map(WrittenTime::dated).orElse(true);
    this.clock = form.zone().map(zone -> new LocalClock(zone, form.repeated())).orElse(null);
  }

  /** Whether times count from 1970 (UTC) rather than from a start of the trace's own. */
  public boolean calendar() {
    return calendar;
  }

  /** Number of times that stated something finer than a nanosecond, which was cut off. */
  public long finer() {
    return finer;
  }

  /** Why the last {@link #read} gave {@link #INVALID}. */
  public String complaint() {
    return complaint;
  }

  /** What to state outside the trace for the last time to be read, where that would do. */
  public Optional<String> remedy() {
    return remedy;
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
    int end = dated ? scanDate(bytes, from, separator) : scanNumber(bytes, from, separator);
    return end >= 0 && bytes[end] == separator ? end : -1;
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
        return scanLongNumber(bytes, from, separator, Words.number(word, 8) * TENS[8] + Words.number(second, 8));
      }
      int count = Words.first(secondOthers);
      whole = Words.number(word, 8) * TENS[count] + Words.number(second, count);
      at = from + 8 + count;
    }
    return at == from ? -1 : scanRest(bytes, at, separator, whole);
  }

  /** A number of sixteen digits or more, as of microseconds or nanoseconds since 1970. */
  private int scanLongNumber(byte[] bytes, int from, byte separator, long leading) {
    long word = Words.at(bytes, from + 16);
    long others = Words.nonDigits(word);
    int count = Words.first(others);
    if (others == 0 || count > 3) {
      return -1;
    }
    long whole = leading * TENS[count] + Words.number(word, count);
    return whole < 0 ? -1 : scanRest(bytes, from + 16 + count, separator, whole);
  }

  private int scanRest(byte[] bytes, int at, byte separator, long whole) {
    if (whole > mostUnits) {
      return -1;
    }
    if (bytes[at] != point || bytes[at] == separator) {
      time = whole * unit;
      return at;
    }
    int end = decimalsEnd(bytes, at + 1, unitDigits);
    if (end < 0) {
      return -1;
    }
    time = whole * unit + decimals(bytes, at + 1, end, unitDigits);
    return end;
  }

  /** The end of the decimals that start there: at least one, and no more than nine or stated; else -1. */
  private static int decimalsEnd(byte[] bytes, int from, int most) {
    long others = Words.nonDigits(Words.at(bytes, from));
    int count = others != 0 ? Words.first(others) : Decimals.isDigit(bytes[from + 8]) ? 9 : 8;
    return count == 0 || count > most || Decimals.isDigit(bytes[from + count]) ? -1 : from + count;
  }

  private static long decimals(byte[] bytes, int from, int end, int digits) {
    int count = Math.min(8, end - from);
    long value = Words.number(Words.at(bytes, from), count) * TENS[digits - count];
    return end - from == 9 ? value + (bytes[end - 1] - '0') * TENS[digits - 9] : value;
  }

  /** A date and time in the same minute as the one before. */
  private int scanDate(byte[] bytes, int from, byte separator) {
    if (!minute.matches(bytes, from)) {
      return -1;
    }
    int at = from + minute.length();
    long found = minute.start();
    if (minute.hasSeconds()) {
      if (!Decimals.isDigit(bytes[at]) || bytes[at] > '5' || !Decimals.isDigit(bytes[at + 1])) {
        return -1;
      }
      found += ((bytes[at] - '0') * 10 + bytes[at + 1] - '0') * 1_000_000_000L;
      at += 2;
      if (bytes[at] == dates.fractionMark() && bytes[at] != separator) {
        int end = decimalsEnd(bytes, at + 1, 9);
        if (end < 0) {
          return -1;
        }
        found += decimals(bytes, at + 1, end, 9);
        at = end;
      }
    }
    if (!minute.ends(bytes, at)) {
      return -1;
    }
    time = found;
    return at + minute.suffixLength();
  }

  /**
   * Reads a time that fills the given bytes.
   *
   * @return nanoseconds, or {@link #INVALID}
   */
  public long read(byte[] bytes, int from, int to) {
    if (from < to && (dated ? scanDate(bytes, from, (byte) 0) : scanNumber(bytes, from, (byte) 0)) == to) {
      return time;
    }
    remedy = Optional.empty();
    long result = dated ? readDate(bytes, from, to) : readNumber(bytes, from, to);
    time = result == INVALID ? time : result;
    return result;
  }

  /**
   * Reads a date and time of which the parts stand in two fields.
   *
   * @param bytes the parts with a space between them, which is overwritten
   * @param space where that is
   * @param joint what stands between them in a row, to be known again by {@link #scan}
   */
  public long readJoined(byte[] bytes, int from, int space, int to, byte joint) {
    jointAt = space;
    this.joint = joint;
    long result = read(bytes, from, to);
    this.joint = 0;
    return result;
  }

  private long readDate(byte[] bytes, int from, int to) {
    open = false;
    long minutes = dates.minutes(bytes, from, to);
    if (minutes == INVALID) {
      return fail(dates.complaint(), unlike(bytes, from, to));
    }
    long start = dates.local() ? utc(minutes) : minutes * 60;
    if (start == INVALID) {
      return INVALID;
    }
    if (dates.leap() && !Rfc3339.canLeap(Math.floorDiv(start, 60))) {
      return fail("has second 60 where no leap second can be", Optional.empty());
    }
    finer += dates.finer() ? 1 : 0;
    proven = true;
    if (!dates.leap()) {
      keep(bytes, from, to, start * 1_000_000_000L);
    }
    return start * 1_000_000_000L + dates.withinMinute();
  }

  /**
   * What to state of a time that is not written as was expected, though it has the look of a date or of a time of day.
   */
  private Optional<String> unlike(byte[] bytes, int from, int to) {
    int digits = 0;
    int marks = 0;
    for (int i = from; i < to; i++) {
      digits += Decimals.isDigit(bytes[i]) ? 1 : 0;
      marks += "-/.:, ".indexOf(bytes[i]) >= 0 ? 1 : 0;
    }
    return !proven && form.written().isEmpty() && !Rfc3339.hasShape(bytes, from, to) && digits >= 4 && marks >= 1
        && to - from >= 5
        ? Optional.of("state under 'time' in a bindings file how they are written, such as: written"
            + " \"day.month.year hour:minute:second\"") : Optional.empty();
  }

  /** Seconds from 1970 in UTC at which a minute begins that a clock shows, or {@link #INVALID}. */
  private long utc(long minutes) {
    if (clock == null) {
      return fail("has no offset", proven ? Optional.empty()
          : Optional.of("state under 'time' in a bindings file whose clock it is: zone UTC, or one such as"
          + " zone Europe/Vienna or zone +01:00"));
    }
    LocalClock.Found found = clock.find(minutes * 60);
    open = found == LocalClock.Found.TWO && clock.repeated() == Repeated.IN_ORDER;
    if (found == LocalClock.Found.NONE) {
      return fail("is left out by clocks of " + clock.zone() + ", which are put forward then", Optional.empty());
    }
    if (found == LocalClock.Found.ONE || clock.repeated() == Repeated.EARLIER) {
      return clock.earlier();
    }
    return switch (clock.repeated()) {
      case LATER -> clock.later();
      case IN_ORDER -> clock.earlier() * 1_000_000_000L + dates.withinMinute() < time - JITTER ? clock.later()
          : clock.earlier();
      default -> fail("comes twice, as clocks of " + clock.zone() + " are put back then",
          Optional.of("state under 'time' in a bindings file which is meant: twice in order, twice earlier or twice "
              + "later"));
    };
  }

  private void keep(byte[] bytes, int from, int to, long start) {
    if (open) {
      minute.forget();
    } else {
      bytes[jointAt] = joint == 0 ? bytes[jointAt] : joint;
      minute.remember(bytes, from, dates.secondsAt(), dates.restAt(), to, start);
    }
  }

  private long fail(String reason, Optional<String> advice) {
    complaint = reason;
    remedy = advice;
    return INVALID;
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
    if (at < to && bytes[at] == point) {
      int mark = at++;
      for (; at < to && Decimals.isDigit(bytes[at]); at++) {
        int place = at - mark;
        fraction += place <= unitDigits ? (bytes[at] - '0') * TENS[unitDigits - place] : 0;
        cut |= place > unitDigits && bytes[at] != '0';
      }
      count += at - mark - 1;
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
}
