package dev.pawl.trace.csv;

import dev.pawl.trace.bytes.Feed;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ValueReader;
import dev.pawl.trace.time.TimeReader;

/** Rows of one time each, with a cell for every signal; an empty cell states nothing. */
final class WideForm implements CsvDecoder.Form {

  private static final int NOT_SIGNAL = -1;

  private final Header header;
  private final TimeReader times;
  private final Intake intake;
  private final byte separator;
  private final int[] channels;
  private final int[] starts;
  private final int[] stops;
  private final long[] values;

  WideForm(Header header, char separator, TimeReader times, Intake intake, long line) {
    this.header = header;
    this.times = times;
    this.intake = intake;
    this.separator = (byte) separator;
    this.channels = new int[header.columns()];
    this.starts = new int[header.columns()];
    this.stops = new int[header.columns()];
    this.values = new long[header.columns()];
    int place = 1;
    for (int i = 0; i < channels.length; i++) {
      channels[i] = i == header.time() ? NOT_SIGNAL : channel(header.names().get(i), line, place);
      place += header.names().get(i).length() + 1;
    }
  }

  private int channel(String tag, long line, int place) {
    Channels all = intake.channels();
    int channel = all.learn(tag);
    if (all.isUnbound(channel)) {
      intake.unbound(channel, tag, line, place);
    }
    return all.carriesSignal(channel) ? channel : NOT_SIGNAL;
  }

  /** Takes a row without quotes and with the time in front, in one pass for the shape and one for the values. */
  @Override
  public int ordinary(byte[] bytes, int from, long line) {
    int at = header.time() == 0 ? times.scan(bytes, from, separator) : -1;
    if (at < 0) {
      return -1;
    }
    int last = channels.length - 1;
    for (int column = 1; column <= last; column++) {
      int start = at + 1;
      at = start;
      while (bytes[at] != separator && bytes[at] != '\n') {
        at++;
      }
      boolean ended = bytes[at] == '\n';
      if (ended != (column == last) || bytes[start] == '"') {
        return -1;
      }
      starts[column] = start;
      stops[column] = ended && at > start && bytes[at - 1] == '\r' ? at - 1 : at;
    }
    if (at - from >= Feed.LONGEST || !readCells(bytes)) {
      return -1;
    }
    send(times.time(), line);
    return at + 1;
  }

  private boolean readCells(byte[] bytes) {
    for (int column = 1; column < channels.length; column++) {
      if (channels[column] != NOT_SIGNAL && stops[column] > starts[column]) {
        values[column] = intake.channels().reader(channels[column]).read(bytes, starts[column], stops[column]);
        if (values[column] == ValueReader.INVALID) {
          return false;
        }
      }
    }
    return true;
  }

  private void send(long time, long line) {
    intake.pass(time, line);
    boolean inOrder = intake.isAt(time);
    for (int column = 1; column < channels.length; column++) {
      if (channels[column] != NOT_SIGNAL && stops[column] > starts[column]) {
        if (inOrder) {
          intake.accept(time, channels[column], values[column], line);
        } else {
          intake.overtaken(channels[column], line);
        }
      }
    }
  }

  @Override
  public void row(byte[] bytes, int start, Fields fields, long time, long line) {
    intake.pass(time, line);
    boolean inOrder = intake.isAt(time);
    for (int column = 0; column < channels.length; column++) {
      if (channels[column] != NOT_SIGNAL && fields.to(column) > fields.from(column)) {
        if (inOrder) {
          cell(bytes, start, fields, column, time, line);
        } else {
          intake.overtaken(channels[column], line);
        }
      }
    }
  }

  private void cell(byte[] bytes, int start, Fields fields, int column, long time, long line) {
    long value = CellValue.read(bytes, start, fields, column, channels[column], intake, line);
    if (value == ValueReader.INVALID) {
      intake.doubt(time, channels[column], line);
    } else {
      intake.accept(time, channels[column], value, line);
    }
  }
}
