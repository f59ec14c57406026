package dev.pawl.trace.csv;

import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.ValueReader;

/** The value in one cell of a row. */
final class CellValue {

  private CellValue() {}

  /** The engine value of a field for a channel; after a problem {@link ValueReader#INVALID}. */
  static long read(byte[] bytes, int start, Fields fields, int place, int channel, Intake intake, long line) {
    Channels channels = intake.channels();
    byte[] source = fields.source(place);
    int from = fields.from(place);
    int to = fields.to(place);
    long value = channels.reader(channel).read(source, from, to);
    if (value == ValueReader.INVALID) {
      intake.problems().add(ProblemKind.WRONG_VALUE, line, Excerpt.column(bytes, start, fields.rawFrom(place)),
          to - from,
          () -> Excerpt.of(source, from, to) + " is no value of signal " + Excerpt.of(channels.tag(channel)),
          () -> channels.reader(channel).remedy(Excerpt.text(source, from, to)));
    }
    return value;
  }
}
