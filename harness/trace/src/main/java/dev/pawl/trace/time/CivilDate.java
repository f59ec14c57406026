package dev.pawl.trace.time;

/**
 * Days of the proleptic Gregorian calendar as numbers, without an object for each.
 *
 * <p>Years are counted from March, so that the leap day ends them; 400 years are 146,097 days.
 */
final class CivilDate {

  private static final int DAYS_PER_ERA = 146_097;
  private static final int DAYS_TO_1970 = 719_468;
  private static final int[] MONTH_DAYS = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

  private CivilDate() {}

  /** Days from 1970-01-01 to the given day; the day must exist. */
  static long toDays(int year, int month, int day) {
    int marchYear = month > 2 ? year : year - 1;
    int era = Math.floorDiv(marchYear, 400);
    int yearOfEra = marchYear - era * 400;
    int dayOfYear = (153 * (month > 2 ? month - 3 : month + 9) + 2) / 5 + day - 1;
    int dayOfEra = yearOfEra * 365 + yearOfEra / 4 - yearOfEra / 100 + dayOfYear;
    return (long) era * DAYS_PER_ERA + dayOfEra - DAYS_TO_1970;
  }

  /** Writes a day as {@code 2026-11-25}; returns the place after it. The year must have four digits. */
  static int write(byte[] into, int at, long days) {
    long shifted = days + DAYS_TO_1970;
    long era = Math.floorDiv(shifted, DAYS_PER_ERA);
    int dayOfEra = (int) (shifted - era * DAYS_PER_ERA);
    int yearOfEra = (dayOfEra - dayOfEra / 1460 + dayOfEra / 36_524 - dayOfEra / 146_096) / 365;
    int dayOfYear = dayOfEra - (365 * yearOfEra + yearOfEra / 4 - yearOfEra / 100);
    int marchMonth = (5 * dayOfYear + 2) / 153;
    int month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
    int year = (int) (era * 400) + yearOfEra + (month <= 2 ? 1 : 0);
    TimeWriter.pair(into, at, year / 100);
    TimeWriter.pair(into, at + 2, year % 100);
    into[at + 4] = '-';
    TimeWriter.pair(into, at + 5, month);
    into[at + 7] = '-';
    TimeWriter.pair(into, at + 8, dayOfYear - (153 * marchMonth + 2) / 5 + 1);
    return at + 10;
  }

  static boolean exists(int year, int month, int day) {
    return month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month);
  }

  static int daysIn(int year, int month) {
    boolean leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return month == 2 && leap ? 29 : MONTH_DAYS[month - 1];
  }
}
