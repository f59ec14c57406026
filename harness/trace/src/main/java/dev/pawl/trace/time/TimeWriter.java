package dev.pawl.trace.time;

import java.nio.charset.StandardCharsets;

/** Times as text, exact to the nanosecond, in as few digits as that takes; {@link TimeReader} reads them back. */
public final class TimeWriter {

  /** Bytes that the longest time takes. */
  public static final int LONGEST = 40;

  private static final long SECOND = 1_000_000_000L;
  private static final long DAY = 86_400 * SECOND;

  private TimeWriter() {}

  /** The time on the given scale; date-times are in UTC. */
  public static String of(long nanoseconds, TimeScale scale) {
    byte[] text = new byte[LONGEST];
    return new String(text, 0, write(text, 0, nanoseconds, scale), StandardCharsets.US_ASCII);
  }

  /**
   * Writes the time on the given scale.
   *
   * @param into has {@link #LONGEST} bytes from {@code at} on
   * @return the place after it
   */
  public static int write(byte[] into, int at, long nanoseconds, TimeScale scale) {
    return scale == TimeScale.RFC_3339 ? writeDate(into, at, nanoseconds) : writeNumber(into, at, nanoseconds,
        scale.nanoseconds());
  }

  private static int writeNumber(byte[] into, int at, long nanoseconds, long unit) {
    int start = at;
    if (nanoseconds < 0) {
      into[start++] = '-';
    }
    int end = digits(into, start, Math.abs(nanoseconds / unit));
    return fraction(into, end, Math.abs(nanoseconds % unit), unit, 1);
  }

  /** In groups of three decimals, as loggers write them. */
  private static int writeDate(byte[] into, int at, long nanoseconds) {
    long days = Math.floorDiv(nanoseconds, DAY);
    long ofDay = nanoseconds - days * DAY;
    int second = (int) (ofDay / SECOND);
    int end = CivilDate.write(into, at, days);
    into[end] = 'T';
    pair(into, end + 1, second / 3600);
    into[end + 3] = ':';
    pair(into, end + 4, second / 60 % 60);
    into[end + 6] = ':';
    pair(into, end + 7, second % 60);
    end = fraction(into, end + 9, ofDay % SECOND, SECOND, 3);
    into[end] = 'Z';
    return end + 1;
  }

  /**
   * A point and the decimals of a part of {@code whole}, in groups of digits, without groups of zeros at the end;
   * nothing for zero.
   */
  private static int fraction(byte[] into, int at, long part, long whole, int group) {
    if (part == 0) {
      return at;
    }
    into[at] = '.';
    int end = at + 1;
    long rest = part;
    long place = whole;
    while (rest != 0) {
      for (int i = 0; i < group; i++) {
        place /= 10;
        into[end++] = (byte) ('0' + rest / place);
        rest %= place;
      }
    }
    return end;
  }

  static void pair(byte[] into, int at, int number) {
    into[at] = (byte) ('0' + number / 10);
    into[at + 1] = (byte) ('0' + number % 10);
  }

  /** Writes the digits of a number that is not negative; returns the place after them. */
  public static int digits(byte[] into, int at, long number) {
    int end = at + 1;
    for (long rest = number / 10; rest != 0; rest /= 10) {
      end++;
    }
    long rest = number;
    for (int i = end - 1; i >= at; i--) {
      into[i] = (byte) ('0' + rest % 10);
      rest /= 10;
    }
    return end;
  }
}
