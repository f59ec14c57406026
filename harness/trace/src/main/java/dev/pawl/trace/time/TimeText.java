package dev.pawl.trace.time;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Locale;

/** Times as text, exact to the nanosecond. */
public final class TimeText {

  private static final long SECOND = 1_000_000_000L;

  private TimeText() {}

  /** The shortest exact spelling on the given scale, which {@link TimeReader} reads back. */
  public static String of(long nanoseconds, TimeScale scale) {
    return scale == TimeScale.RFC_3339 ? calendar(nanoseconds) : number(nanoseconds, scale.nanoseconds());
  }

  private static String calendar(long nanoseconds) {
    Instant instant = Instant.ofEpochSecond(Math.floorDiv(nanoseconds, SECOND), Math.floorMod(nanoseconds, SECOND));
    LocalDateTime utc = LocalDateTime.ofInstant(instant, ZoneOffset.UTC);
    String seconds = String.format(Locale.ROOT, "%04d-%02d-%02dT%02d:%02d:%02d", utc.getYear(), utc.getMonthValue(),
        utc.getDayOfMonth(), utc.getHour(), utc.getMinute(), utc.getSecond());
    return seconds + decimals(utc.getNano(), 9, 3) + "Z";
  }

  private static String number(long nanoseconds, long unit) {
    String sign = nanoseconds < 0 ? "-" : "";
    long whole = Math.abs(nanoseconds / unit);
    return sign + whole + decimals(Math.abs(nanoseconds % unit), Long.toString(unit).length() - 1, 1);
  }

  /** A point and the digits of a fraction, without the zeros at its end, in groups of {@code group} digits. */
  private static String decimals(long fraction, int digits, int group) {
    if (fraction == 0) {
      return "";
    }
    String padded = String.format(Locale.ROOT, "%0" + digits + "d", fraction);
    int end = padded.length();
    while (end > group && padded.substring(end - group, end).chars().allMatch(c -> c == '0')) {
      end -= group;
    }
    return "." + padded.substring(0, end);
  }

  /** Writes digits of a nonnegative number; returns the place after them. */
  public static int digits(byte[] into, int at, long number) {
    if (number >= 10_000_000_000_000_000L) {
      byte[] text = Long.toString(number).getBytes(StandardCharsets.US_ASCII);
      System.arraycopy(text, 0, into, at, text.length);
      return at + text.length;
    }
    int end = at;
    long rest = number;
    do {
      end++;
      rest /= 10;
    } while (rest != 0);
    rest = number;
    for (int i = end - 1; i >= at; i--) {
      into[i] = (byte) ('0' + rest % 10);
      rest /= 10;
    }
    return end;
  }
}
