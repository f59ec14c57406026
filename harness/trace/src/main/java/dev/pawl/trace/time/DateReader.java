package dev.pawl.trace.time;

import dev.pawl.trace.bytes.Decimals;

/**
 * A reader of dates with their times of day, in one way of writing them. What it says, it says of the last time read.
 */
abstract class DateReader {

  static final long SECOND = 1_000_000_000L;

  /** Days from 1970 that nanoseconds can count, with room to spare. */
  static final long GREATEST_DAY = TimeReader.LIMIT / (86_400 * SECOND) - 2;

  protected int second;
  protected long nanoseconds;
  protected boolean finer;
  protected int secondsAt;
  protected int restAt;
  private String complaint = "";

  /**
   * Takes a text apart.
   *
   * @return minutes from 1970 in UTC, or, where no offset is stated, as the clock shows them; of times without a date
   *     from zero; {@link TimeReader#INVALID} if it is no such time
   */
  abstract long minutes(byte[] bytes, int from, int to);

  /** Whether it is a date without an offset. */
  abstract boolean local();

  /** What stands between seconds and their decimals; 0 if that is no single character. */
  abstract char fractionMark();

  /** Why it is no time. */
  final String complaint() {
    return complaint;
  }

  /** Nanoseconds within the minute. */
  final long withinMinute() {
    return second * SECOND + nanoseconds;
  }

  /** Whether it is second 60. */
  final boolean leap() {
    return second == 60;
  }

  /** Whether something finer than a nanosecond was cut off. */
  final boolean finer() {
    return finer;
  }

  /** Where the seconds start; where the text ends, if there are none. */
  final int secondsAt() {
    return secondsAt;
  }

  /** Where what follows the seconds and their decimals starts. */
  final int restAt() {
    return restAt;
  }

  /** Takes the decimals of the second; returns their end. */
  protected final int decimals(byte[] bytes, int from, int to) {
    long place = SECOND / 10;
    int at = from;
    for (; at < to && Decimals.isDigit(bytes[at]); at++) {
      nanoseconds += (bytes[at] - '0') * place;
      finer |= place == 0 && bytes[at] != '0';
      place /= 10;
    }
    return at;
  }

  protected final long fail(String reason) {
    complaint = reason;
    return TimeReader.INVALID;
  }
}
