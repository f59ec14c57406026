package dev.pawl.trace.csv;

import dev.pawl.trace.bindings.Columns;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ValueReader;
import dev.pawl.trace.time.TimeReader;

/** Rows of one time each, with a cell for every signal; an empty cell states nothing. */
final class WideForm implements CsvDecoder.Form {

  private static final int NOT_SIGNAL = -1;

  private final TimeFields times;
  private final Intake intake;
  private final PlainRow plain;
  private final int[] channels;
  private final long[] values;

  WideForm(Header header, Columns layout, TimeFields times, Intake intake, long line) {
    this.times = times;
    this.intake = intake;
    this.plain = new PlainRow(header.columns(), layout.separator(), layout.spaces());
    this.channels = new int[header.columns()];
    this.values = new long[header.columns()];
    int place = 1;
    for (int i = 0; i < channels.length; i++) {
      String name = header.names().get(i);
      boolean other = i == header.time() || i == header.timeOfDay() || name.isEmpty();
      channels[i] = other ? NOT_SIGNAL : channel(name, line, place);
      place += name.length() + 1;
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

  /** Takes a row without quotes, in one pass for the shape and one for the values. */
  @Override
  public int ordinary(byte[] bytes, int from, long line) {
    int first = 0;
    int at = from;
    if (times.lead()) {
      first = times.count();
      at = times.scan(bytes, from) + 1;
      if (at == 0 || first >= channels.length) {
        return -1;
      }
    }
    int next = plain.split(bytes, from, first, at);
    long time = next < 0 ? TimeReader.INVALID : first > 0 ? times.times().time() : times.read(bytes, plain);
    if (time == TimeReader.INVALID || !readCells(bytes)) {
      return -1;
    }
    send(time, line);
    return next;
  }

  private boolean readCells(byte[] bytes) {
    for (int column = 0; column < channels.length; column++) {
      if (channels[column] != NOT_SIGNAL && !plain.isEmpty(column)) {
        values[column] = intake.channels().reader(channels[column])
            .read(bytes, plain.start(column), plain.stop(column));
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
    for (int column = 0; column < channels.length; column++) {
      if (channels[column] != NOT_SIGNAL && !plain.isEmpty(column)) {
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
