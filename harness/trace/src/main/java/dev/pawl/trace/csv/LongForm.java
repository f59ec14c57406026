package dev.pawl.trace.csv;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.bindings.Columns;
import dev.pawl.trace.intake.BoundTags;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.Quality;
import dev.pawl.trace.intake.ValueReader;
import dev.pawl.trace.time.TimeReader;

/** Rows of one event each, in any spelling. */
final class LongForm implements CsvDecoder.Form {

  private final Header header;
  private final Intake intake;
  private final Channels channels;
  private final BoundTags bound;
  private final boolean hasQuality;
  private final OrdinaryRow ordinary;
  private final LeftOutRow leftOut;
  private final TimeFields times;
  private final PlainRow plain;

  LongForm(Header header, Columns layout, TimeFields times, Intake intake) {
    this.header = header;
    this.intake = intake;
    this.channels = intake.channels();
    this.bound = channels.boundTags();
    this.hasQuality = header.quality() >= 0;
    this.ordinary = new OrdinaryRow(header, layout.separator(), times, intake);
    this.leftOut = new LeftOutRow(header, layout.separator(), times, intake);
    this.times = times;
    this.plain = new PlainRow(header.columns(), layout.separator(), layout.spaces());
  }

  @Override
  public int ordinary(byte[] bytes, int from, long line) {
    int next = ordinary.take(bytes, from, line);
    if (next < 0) {
      next = leftOut.take(bytes, from, line);
    }
    return next < 0 ? plainRow(bytes, from, line) : next;
  }

  /** Takes a row without quotes, its columns in any order; returns the start of the next, or -1 with nothing done. */
  private int plainRow(byte[] bytes, int from, long line) {
    int next = plain.split(bytes, from, 0, from);
    if (next < 0) {
      return -1;
    }
    int tagFrom = plain.start(header.signal());
    int tagLength = plain.stop(header.signal()) - tagFrom;
    int channel = bound.table().find(bytes, tagFrom, tagLength);
    if (channel < 0) {
      return plainLeftOut(bytes, tagFrom, tagLength, line) ? next : -1;
    }
    Quality quality = hasQuality ? Quality.of(bytes, plain.start(header.quality()), plain.stop(header.quality()))
        : Quality.GOOD;
    long value = quality == Quality.GOOD ? plainValue(bytes, channel)
        : quality == Quality.NOT_GOOD ? EventSink.UNKNOWN : ValueReader.INVALID;
    long time = value == ValueReader.INVALID ? TimeReader.INVALID : times.read(bytes, plain);
    if (time == TimeReader.INVALID) {
      return -1;
    }
    intake.accept(time, channel, value, line);
    return next;
  }

  private long plainValue(byte[] bytes, int channel) {
    int from = plain.start(header.value());
    int to = plain.stop(header.value());
    int bit = bytes[from] - '0';
    int flip = bound.flips()[channel];
    return to - from == 1 && (bit & ~1) == 0 && flip >= 0 ? bit ^ flip : bound.readers()[channel].read(bytes, from, to);
  }

  private boolean plainLeftOut(byte[] bytes, int tagFrom, int tagLength, long line) {
    int channel = channels.find(bytes, tagFrom, tagLength);
    long time = channel >= 0 && channels.isLeftOut(channel) ? times.read(bytes, plain) : TimeReader.INVALID;
    if (time == TimeReader.INVALID) {
      return false;
    }
    intake.pass(time, line);
    return true;
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
    if (value == ValueReader.INVALID) {
      intake.doubt(time, channel, line);
    } else {
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
            fields.to(column) - fields.from(column), () -> Excerpt.of(fields.text(column))
                + " is no quality that is known here",
            () -> "known are " + Quality.CHOICES);
        return ValueReader.INVALID;
      }
    }
    return CellValue.read(bytes, start, fields, place, channel, intake, line);
  }
}
