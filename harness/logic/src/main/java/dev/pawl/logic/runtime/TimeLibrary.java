package dev.pawl.logic.runtime;

import java.math.BigInteger;
import java.time.DateTimeException;
import java.time.LocalDate;

/** The standard functions of durations, dates and times of day, all in nanoseconds. */
public final class TimeLibrary {

  private static final long DAY = 86_400_000_000_000L;
  private static final long MILLISECOND = 1_000_000L;

  private TimeLibrary() {}

  /** {@code T#1d2h3m4s5ms}, units that are zero left out. */
  public static String durationToText(long nanoseconds) {
    String[] units = {"d", "h", "m", "s", "ms", "us", "ns"};
    long[] lengths = {DAY, 3_600_000_000_000L, 60_000_000_000L, 1_000_000_000L, MILLISECOND, 1_000L, 1L};
    StringBuilder text = new StringBuilder(nanoseconds < 0 ? "T#-" : "T#");
    BigInteger rest = BigInteger.valueOf(nanoseconds).abs();
    for (int i = 0; i < units.length; i++) {
      BigInteger[] parts = rest.divideAndRemainder(BigInteger.valueOf(lengths[i]));
      text.append(parts[0].signum() == 0 ? "" : parts[0] + units[i]);
      rest = parts[1];
    }
    return nanoseconds == 0 ? "T#0s" : text.toString();
  }

  public static long dayOf(long instant) {
    return Math.floorDiv(instant, DAY) * DAY;
  }

  public static long clockOf(long instant) {
    return Math.floorMod(instant, DAY);
  }

  /** A time of day moved by a duration, around midnight. */
  public static long addClock(long clock, long duration) {
    return Math.floorMod(clock + duration % DAY, DAY);
  }

  public static long millisecondsOf(long duration) {
    return duration / MILLISECOND;
  }

  public static double millisecondsRealOf(long duration) {
    return duration / (double) MILLISECOND;
  }

  public static long makeDate(long year, long month, long day) {
    try {
      return Math.multiplyExact(LocalDate.of(Math.toIntExact(year), Math.toIntExact(month), Math.toIntExact(day))
          .toEpochDay(), DAY);
    } catch (DateTimeException | ArithmeticException noSuchDay) {
      throw new LogicFault("there is no day " + year + "-" + month + "-" + day);
    }
  }

  public static long makeClock(long hour, long minute, long second, long millisecond) {
    boolean valid = hour >= 0 && hour < 24 && minute >= 0 && minute < 60 && second >= 0 && second < 60
        && millisecond >= 0 && millisecond < 1000;
    if (!valid) {
      throw new LogicFault("there is no time of day " + hour + ":" + minute + ":" + second + "." + millisecond);
    }
    return ((hour * 60 + minute) * 60 + second) * 1_000_000_000L + millisecond * MILLISECOND;
  }

  /** 0 for Sunday to 6 for Saturday. */
  public static long dayOfWeek(long date) {
    return Math.floorMod(Math.floorDiv(date, DAY) + 4, 7);
  }
}
