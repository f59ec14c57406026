package dev.pawl.trace.csv;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.bytes.Words;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.Quality;
import dev.pawl.trace.intake.ValueReader;
import dev.pawl.trace.time.TimeReader;

/**
 * Rows of one event each. {@link #ordinary} is the hot path of the whole tool: no quotes, columns in their usual order, everything
 * valid; it does nothing at all with any other row, which then goes through {@link #row}.
 */
final class LongForm implements CsvDecoder.Form {

  private static final long LINE_FEEDS = Words.repeat('\n');
  private static final int LONGEST_TAG = 200;
  private static final int LONGEST_VALUE = 48;
  private static final int GOOD = 'g' | 'o' << 8 | 'o' << 16 | 'd' << 24;

  private final Header header;
  private final TimeReader times;
  private final Intake intake;
  private final Channels channels;
  private final byte separator;
  private final long separators;
  private final boolean usualOrder;
  private final boolean hasQuality;

  LongForm(Header header, char separator, TimeReader times, Intake intake) {
    this.header = header;
    this.times = times;
    this.intake = intake;
    this.channels = intake.channels();
    this.separator = (byte) separator;
    this.separators = Words.repeat(separator);
    this.hasQuality = header.quality() >= 0;
    this.usualOrder = header.time() == 0 && header.signal() == 1 && header.value() == 2;
  }

  @Override
  public int ordinary(byte[] bytes, int from, long line) {
    int tagFrom = usualOrder ? times.scan(bytes, from, separator) + 1 : 0;
    if (tagFrom == 0) {
      return -1;
    }
    long time = times.time();
    int tagLength = tagLength(bytes, tagFrom);
    int channel = tagLength < 0 ? -1 : channels.find(bytes, tagFrom, tagLength);
    if (channel < 0 || !channels.carriesSignal(channel)) {
      return -1;
    }
    int valueFrom = tagFrom + tagLength + 1;
    int bit = bytes[valueFrom] - '0';
    int flip = channels.flip(channel);
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
      if (stop - from < 6 || bytes[stop - 5] != separator || (int) Words.at(bytes, stop - 4) != GOOD) {
        return -1;
      }
      stop -= 5;
    }
    long value = channels.reader(channel).read(bytes, from, stop);
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

  @Override
  public void row(byte[] bytes, int start, Fields fields, long time, long line) {
    int signal = header.signal();
    int from = fields.from(signal);
    int channel = channels.find(fields.source(signal), from, fields.to(signal) - from);
    if (channel < 0) {
      channel = channels.learn(fields.text(signal));
    }
    if (channels.isUnbound(channel)) {
      intake.unbound(channel, fields.text(signal), line, Excerpt.column(bytes, start, fields.rawFrom(signal)));
      return;
    }
    if (!channels.carriesSignal(channel)) {
      intake.pass(time, line);
      return;
    }
    long value = value(bytes, start, fields, channel, line);
    if (value != ValueReader.INVALID) {
      intake.accept(time, channel, value, line);
    }
  }

  private long value(byte[] bytes, int start, Fields fields, int channel, long line) {
    int place = header.value();
    if (hasQuality) {
      int column = header.quality();
      Quality quality = Quality.of(fields.source(column), fields.from(column), fields.to(column));
      if (quality == Quality.NOT_GOOD) {
        return EventSink.UNKNOWN;
      }
      if (quality == Quality.UNRECOGNISED) {
        intake.problems().add(ProblemKind.UNKNOWN_QUALITY, line, Excerpt.column(bytes, start, fields.rawFrom(column)),
            fields.to(column) - fields.from(column), () -> Excerpt.of(fields.text(column)) + " is no quality that is known here",
            () -> "known are " + Quality.CHOICES);
        return ValueReader.INVALID;
      }
    }
    return CellValue.read(bytes, start, fields, place, channel, intake, line);
  }
}
