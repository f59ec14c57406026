package dev.pawl.trace.csv;

import dev.pawl.engine.EventSink;
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
  private final boolean hasQuality;
  private final OrdinaryRow ordinary;
  private final LeftOutRow leftOut;

  LongForm(Header header, char separator, TimeReader times, Intake intake) {
    this.header = header;
    this.intake = intake;
    this.channels = intake.channels();
    this.hasQuality = header.quality() >= 0;
    this.ordinary = new OrdinaryRow(header, separator, times, intake);
    this.leftOut = new LeftOutRow(header, separator, times, intake);
  }

  @Override
  public int ordinary(byte[] bytes, int from, long line) {
    int next = ordinary.take(bytes, from, line);
    return next < 0 ? leftOut.take(bytes, from, line) : next;
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
