package dev.pawl.trace.csv;

import dev.pawl.trace.bytes.NameTable;
import dev.pawl.trace.time.TimeReader;

/** The time of a row, which stands in one field, or its date in one and its time of day in another. */
final class TimeFields {

  private final TimeReader times;
  private final int date;
  private final int timeOfDay;
  private final byte separator;
  private final boolean leading;
  private byte[] joined = new byte[128];

  TimeFields(TimeReader times, Header header, char separator) {
    this.times = times;
    this.date = header.time();
    this.timeOfDay = header.timeOfDay();
    this.separator = (byte) separator;
    this.leading = date == 0 && timeOfDay <= 1;
  }

  TimeReader times() {
    return times;
  }

  /** Whether the row starts with them. */
  boolean lead() {
    return leading;
  }

  /** Number of fields. */
  int count() {
    return timeOfDay < 0 ? 1 : 2;
  }

  /** Tries to read the time with which a row starts; returns the place of the separator after it, or -1. */
  int scan(byte[] bytes, int from) {
    return times.scan(bytes, from, separator);
  }

  /** The time of a plain row, or {@link TimeReader#INVALID}. */
  long read(byte[] bytes, PlainRow row) {
    return timeOfDay < 0 ? times.read(bytes, row.start(date), row.stop(date))
        : join(bytes, row.start(date), row.stop(date), bytes, row.start(timeOfDay), row.stop(timeOfDay));
  }

  /** The time of a row that has been taken apart, or {@link TimeReader#INVALID}. */
  long read(Fields fields) {
    return timeOfDay < 0 ? times.read(fields.source(date), fields.from(date), fields.to(date))
        : join(fields.source(date), fields.from(date), fields.to(date), fields.source(timeOfDay),
            fields.from(timeOfDay), fields.to(timeOfDay));
  }

  /** The text that was read. */
  String text(Fields fields) {
    return fields.text(date) + (timeOfDay < 0 ? "" : " " + fields.text(timeOfDay));
  }

  private long join(byte[] first, int from, int to, byte[] second, int secondFrom, int secondTo) {
    int middle = NameTable.SLACK + to - from;
    int end = middle + 1 + secondTo - secondFrom;
    if (end + NameTable.SLACK > joined.length) {
      joined = new byte[2 * end + NameTable.SLACK];
    }
    System.arraycopy(first, from, joined, NameTable.SLACK, to - from);
    joined[middle] = ' ';
    System.arraycopy(second, secondFrom, joined, middle + 1, secondTo - secondFrom);
    java.util.Arrays.fill(joined, end, joined.length, (byte) 0);
    return timeOfDay == date + 1 ? times.readJoined(joined, NameTable.SLACK, middle, end, separator)
        : times.read(joined, NameTable.SLACK, end);
  }
}
