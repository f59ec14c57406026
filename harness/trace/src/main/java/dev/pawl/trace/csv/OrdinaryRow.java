package dev.pawl.trace.csv;

import dev.pawl.trace.bytes.NameTable;
import dev.pawl.trace.bytes.Words;
import dev.pawl.trace.intake.BoundTags;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.Quality;
import dev.pawl.trace.intake.ValueReader;

/**
 * The hot path of the whole tool: a row of one event in the ordinary spelling, with no quotes, columns in their usual
 * order, a bound tag and everything valid. It does nothing at all with any other row, which then has to go through
 * {@link LongForm#row}.
 */
final class OrdinaryRow {

  private static final long LINE_FEEDS = Words.repeat('\n');
  private static final int LONGEST_TAG = 200;
  private static final int LONGEST_VALUE = 48;
  private static final int GOOD = 'g' | 'o' << 8 | 'o' << 16 | 'd' << 24;

  private final TimeFields times;
  private final NameTable tags;
  private final ValueReader[] readers;
  private final byte[] flips;
  private final Intake intake;
  private final byte separator;
  private final long separators;
  private final boolean usualOrder;
  private final boolean hasQuality;

  OrdinaryRow(Header header, char separator, TimeFields times, Intake intake) {
    this.times = times;
    BoundTags bound = intake.channels().boundTags();
    this.tags = bound.table();
    this.readers = bound.readers();
    this.flips = bound.flips();
    this.intake = intake;
    this.separator = (byte) separator;
    this.separators = Words.repeat(separator);
    this.hasQuality = header.quality() >= 0;
    int tag = times.count();
    this.usualOrder = times.lead() && header.signal() == tag && header.value() == tag + 1
        && header.columns() == tag + (hasQuality ? 3 : 2) && header.quality() < tag + 3;
  }

  /** Takes a row; returns the start of the next, or -1 with nothing done. */
  int take(byte[] bytes, int from, long line) {
    int tagFrom = usualOrder ? times.scan(bytes, from) + 1 : 0;
    if (tagFrom == 0) {
      return -1;
    }
    long time = times.times().time();
    int tagLength = tagLength(bytes, tagFrom);
    int channel = tagLength < 0 ? -1 : tags.find(bytes, tagFrom, tagLength);
    if (channel < 0) {
      return -1;
    }
    int valueFrom = tagFrom + tagLength + 1;
    int bit = bytes[valueFrom] - '0';
    int flip = flips[channel];
    if (bytes[valueFrom + 1] == '\n' && (bit & ~1) == 0 && flip >= 0 && !hasQuality) {
      intake.accept(time, channel, bit ^ flip, line);
      return valueFrom + 2;
    }
    return otherValue(bytes, valueFrom, time, channel, line);
  }

  /** Number of bytes before the next separator, or -1 if that is far off. */
  private int tagLength(byte[] bytes, int from) {
    long found = Words.matches(Words.at(bytes, from), separators);
    if (found != 0) {
      return Words.first(found);
    }
    for (int i = 8; i < LONGEST_TAG; i += 8) {
      found = Words.matches(Words.at(bytes, from + i), separators);
      if (found != 0) {
        return i + Words.first(found);
      }
    }
    return -1;
  }

  /** The rest of a row whose value is not a plain bit at the end of it. */
  private int otherValue(byte[] bytes, int from, long time, int channel, long line) {
    int lineEnd = lineEnd(bytes, from);
    if (lineEnd < 0) {
      return -1;
    }
    int stop = bytes[lineEnd - 1] == '\r' ? lineEnd - 1 : lineEnd;
    if (hasQuality) {
      boolean good = stop - from >= 6 && bytes[stop - 5] == separator && (int) Words.at(bytes, stop - 4) == GOOD;
      int mark = good ? stop - 5 : from + Words.first(Words.matches(Words.at(bytes, from), separators));
      if (!good && (mark >= stop || Quality.of(bytes, mark + 1, stop) != Quality.GOOD)) {
        return -1;
      }
      stop = mark;
    }
    long value = readers[channel].read(bytes, from, stop);
    if (value == ValueReader.INVALID) {
      return -1;
    }
    intake.accept(time, channel, value, line);
    return lineEnd + 1;
  }

  private static int lineEnd(byte[] bytes, int from) {
    for (int i = 0; i < LONGEST_VALUE; i += 8) {
      long found = Words.matches(Words.at(bytes, from + i), LINE_FEEDS);
      if (found != 0) {
        return from + i + Words.first(found);
      }
    }
    return -1;
  }
}
