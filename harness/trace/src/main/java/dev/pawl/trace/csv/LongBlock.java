package dev.pawl.trace.csv;

import dev.pawl.trace.bytes.Block;
import dev.pawl.trace.intake.BoundTags;
import dev.pawl.trace.intake.RowSink;
import dev.pawl.trace.time.TimeReader;

/** The ordinary rows at the start of a window, read ahead of their turn; the rest, if any, is left to be read in turn. */
final class LongBlock extends Block implements RowSink {

  private static final int MOST = 1 << 14;

  private final OrdinaryRow row;
  private final long[] times = new long[MOST];
  private final int[] channels = new int[MOST];
  private final long[] values = new long[MOST];
  private int count;
  private int stopped;

  LongBlock(byte[] spare, Header header, char separator, TimeReader reader, BoundTags bound) {
    super(spare);
    this.row = new OrdinaryRow(header, separator, reader, bound, this);
  }

  @Override
  protected void decode(byte[] window, int from, int to) {
    stopped = from;
    int at = from;
    while (at >= 0 && at < to && count < MOST) {
      stopped = at;
      at = row.take(window, at, 0);
    }
    stopped = at < 0 ? stopped : at;
  }

  @Override
  protected void forget() {
    count = 0;
    stopped = 0;
  }

  @Override
  public void accept(long time, int channel, long value, long line) {
    int at = count++;
    times[at] = time;
    channels[at] = channel;
    values[at] = value;
  }

  /** Number of rows found; each is one line. */
  int count() {
    return count;
  }

  /** Where the rows found end. */
  int stopped() {
    return stopped;
  }

  /** Sends the rows found on, numbered from a line. */
  void play(RowSink sink, long line) {
    for (int i = 0; i < count; i++) {
      sink.accept(times[i], channels[i], values[i], line + i);
    }
  }
}
