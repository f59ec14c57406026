package dev.pawl.trace.time;

/** A reader of dates with their times of day, in one way of writing them. What it says, it says of the last time read. */
interface DateReader {

  /**
   * Takes a text apart.
   *
   * @return minutes from 1970 in UTC, or, where no offset is stated, as the clock shows them; of times without a date
   *     from zero; {@link TimeReader#INVALID} if it is no such time
   */
  long minutes(byte[] bytes, int from, int to);

  /** Why it is no time. */
  String complaint();

  /** Whether it is a date without an offset. */
  boolean local();

  /** Nanoseconds within the minute. */
  long withinMinute();

  /** Whether it is second 60. */
  boolean leap();

  /** Whether something finer than a nanosecond was cut off. */
  boolean finer();

  /** Where the seconds start; where the text ends, if there are none. */
  int secondsAt();

  /** Where what follows the seconds and their decimals starts. */
  int restAt();

  /** What stands between seconds and their decimals; 0 if that is no single character. */
  char fractionMark();
}
