package dev.pawl.trace.time;

import dev.pawl.trace.bytes.Words;

/** The last date, hour and minute seen in UTC, as sixteen bytes, with the time at which that minute began. */
final class MinuteMemory {

  private long first;
  private long second;
  private long start;

  boolean matches(byte[] bytes, int from) {
    return Words.at(bytes, from) == first && Words.at(bytes, from + 8) == second;
  }

  /** Nanoseconds from the epoch. */
  long start() {
    return start;
  }

  void remember(byte[] bytes, int from, long minuteStart) {
    first = Words.at(bytes, from);
    second = Words.at(bytes, from + 8);
    start = minuteStart;
  }
}
