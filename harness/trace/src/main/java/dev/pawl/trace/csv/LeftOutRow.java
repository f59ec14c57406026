package dev.pawl.trace.csv;

import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Intake;

/**
 * A row of a tag that is left out on purpose, in the ordinary spelling: only its time and the number of its fields
 * matter. Like {@link OrdinaryRow} it does nothing with any other row.
 */
final class LeftOutRow {

  private final TimeFields times;
  private final Intake intake;
  private final byte separator;
  private final int columns;
  private final boolean usualOrder;
  private final int fieldsToTag;

  LeftOutRow(Header header, char separator, TimeFields times, Intake intake) {
    this.times = times;
    this.intake = intake;
    this.separator = (byte) separator;
    this.fieldsToTag = times.count() + 1;
    this.columns = header.columns();
    this.usualOrder = times.lead() && header.signal() == times.count();
  }

  /** Takes a row; returns the start of the next, or -1 with nothing done. */
  int take(byte[] bytes, int from, long line) {
    int tagFrom = usualOrder ? times.scan(bytes, from) + 1 : 0;
    if (tagFrom == 0) {
      return -1;
    }
    int at = fieldEnd(bytes, tagFrom);
    Channels channels = intake.channels();
    int channel = bytes[at] == separator ? channels.find(bytes, tagFrom, at - tagFrom) : -1;
    if (channel < 0 || !channels.isLeftOut(channel)) {
      return -1;
    }
    int fields = fieldsToTag;
    while (bytes[at] == separator) {
      at = fieldEnd(bytes, at + 1);
      fields++;
    }
    if (bytes[at] != '\n' || fields != columns) {
      return -1;
    }
    intake.pass(times.times().time(), line);
    return at + 1;
  }

  /** The place of the separator, line break or quote that ends the field, as far as it is a plain one. */
  private int fieldEnd(byte[] bytes, int from) {
    int at = from;
    while (bytes[at] != separator && bytes[at] != '\n' && bytes[at] != '"') {
      at++;
    }
    return at;
  }
}
