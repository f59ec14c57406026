package dev.pawl.trace.time;

import dev.pawl.trace.bytes.Decimals;

/**
 * Date-times as RFC 3339, section 5.6, spells them: {@code T} and {@code Z} may be small, a space may stand for
 * {@code T}, seconds may have any number of decimals. Beyond it, a comma may stand before these, and an offset may be
 * {@code +0100}, {@code +01} or left out, and a space may stand before it, as ISO 8601 has it (from memory).
 *
 * <p>A leap second ({@code :60}, only where one can be: at the end of 23:59 UTC on the last day of a month) gets the
 * time of the second that follows it, as POSIX time does. {@code -00:00} states UTC with the local offset unknown and
 * counts as UTC.
 */
final class Rfc3339 extends DateReader {

  private static final int SHORTEST = 19;

  private boolean local;

  @Override
  boolean local() {
    return local;
  }

  @Override
  char fractionMark() {
    return '.';
  }

  @Override
  long minutes(byte[] bytes, int from, int to) {
    if (!hasShape(bytes, from, to)) {
      return fail("is no RFC 3339 date-time such as 2026-11-25T09:27:39.125Z");
    }
    int year = pair(bytes, from) * 100 + pair(bytes, from + 2);
    int month = pair(bytes, from + 5);
    int day = pair(bytes, from + 8);
    int hour = pair(bytes, from + 11);
    int minute = pair(bytes, from + 14);
    secondsAt = from + 17;
    second = pair(bytes, secondsAt);
    if (!CivilDate.exists(year, month, day)) {
      return fail("names a day that does not exist");
    }
    if (hour > 23 || minute > 59 || second > 60) {
      return fail("names a time of day that does not exist");
    }
    int at = from + 19;
    nanoseconds = 0;
    finer = false;
    if (at < to && (bytes[at] == '.' || bytes[at] == ',')) {
      int end = decimals(bytes, at + 1, to);
      if (end == at + 1) {
        return fail("has a point without digits after it");
      }
      at = end;
    }
    restAt = at;
    local = at == to;
    int offset = local ? 0 : offsetMinutes(bytes, bytes[at] == ' ' ? at + 1 : at, to);
    if (offset == Integer.MIN_VALUE) {
      return TimeReader.INVALID;
    }
    long days = CivilDate.toDays(year, month, day);
    if (Math.abs(days) > GREATEST_DAY) {
      return fail("is more than 73 years away from 1970");
    }
    return days * 1440 + hour * 60L + minute - offset;
  }

  /** Whether the text starts as a date and time do. */
  static boolean hasShape(byte[] bytes, int from, int to) {
    if (to - from < SHORTEST) {
      return false;
    }
    String shape = "dddd-dd-ddTdd:dd:dd";
    for (int i = 0; i < shape.length(); i++) {
      byte value = bytes[from + i];
      boolean fits = switch (shape.charAt(i)) {
        case 'd' -> Decimals.isDigit(value);
        case 'T' -> value == 'T' || value == 't' || value == ' ';
        default -> value == shape.charAt(i);
      };
      if (!fits) {
        return false;
      }
    }
    return true;
  }

  /** Minutes east of UTC; {@code Integer.MIN_VALUE} after a complaint. */
  private int offsetMinutes(byte[] bytes, int at, int to) {
    if (to - at == 1 && (bytes[at] | 0x20) == 'z') {
      return 0;
    }
    int sign = bytes[at] == '+' ? 1 : bytes[at] == '-' ? -1 : 0;
    int length = to - at;
    boolean parted = length == 6 && bytes[at + 3] == ':';
    boolean shaped = sign != 0 && (length == 3 || length == 5 || parted) && isPair(bytes, at + 1)
        && (length == 3 || isPair(bytes, to - 2));
    int hours = shaped ? pair(bytes, at + 1) : 0;
    int minutes = shaped && length > 3 ? pair(bytes, to - 2) : 0;
    if (!shaped || hours > 23 || minutes > 59) {
      fail("ends in no offset; RFC 3339 wants Z or one such as -05:00");
      return Integer.MIN_VALUE;
    }
    return sign * (hours * 60 + minutes);
  }

  /** Whether a leap second can follow the minute, counted from 1970 in UTC. */
  static boolean canLeap(long minutes) {
    long day = Math.floorDiv(minutes, 1440);
    java.time.LocalDate date = java.time.LocalDate.ofEpochDay(day);
    return Math.floorMod(minutes, 1440) == 1439 && date.getDayOfMonth() == date.lengthOfMonth();
  }

  private static boolean isPair(byte[] bytes, int at) {
    return Decimals.isDigit(bytes[at]) && Decimals.isDigit(bytes[at + 1]);
  }

  private static int pair(byte[] bytes, int at) {
    return (bytes[at] - '0') * 10 + bytes[at + 1] - '0';
  }
}
