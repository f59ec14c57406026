package dev.pawl.bench.workload;

import dev.pawl.bench.trace.CampaignTrace;
import dev.pawl.engine.EventSink;
import java.io.IOException;
import java.io.OutputStream;
import java.util.Arrays;

/** The events of a campaign trace in memory, a column each, so that engines can be measured without any reading. */
public final class EventColumns {

  private static final int FIRST_NUMBER = 18;

  private long[] times;
  private byte[] signals;
  private long[] values;
  private int size;

  private EventColumns(int capacity) {
    times = new long[capacity];
    signals = new byte[capacity];
    values = new long[capacity];
  }

  /** The events that reading the trace's text gives. */
  public static EventColumns of(CampaignTrace trace) {
    EventColumns columns = new EventColumns(Math.toIntExact(trace.rows()));
    try (RowParser parser = new RowParser(columns)) {
      trace.writeTo(parser);
    } catch (IOException e) {
      throw new IllegalStateException("writing to memory failed", e);
    }
    return columns;
  }

  public int size() {
    return size;
  }

  /** Time from the first event to the last, and a second, so that the events can be brought again that much later. */
  public long length() {
    return times[size - 1] - times[0] + 1_000_000_000L;
  }

  /**
   * Brings the events from row {@code from} up to before row {@code to}.
   *
   * @param later nanoseconds to add to their times
   */
  public void replay(EventSink sink, int from, int to, long later) {
    for (int row = from; row < to; row++) {
      sink.event(times[row] + later, signals[row], values[row], row + 2);
    }
  }

  private void add(long time, int signal, long value) {
    if (size == times.length) {
      times = Arrays.copyOf(times, 2 * size);
      signals = Arrays.copyOf(signals, 2 * size);
      values = Arrays.copyOf(values, 2 * size);
    }
    times[size] = time;
    signals[size] = (byte) signal;
    values[size++] = value;
  }

  /** Takes the text as it is written; plain rather than fast. */
  private static final class RowParser extends OutputStream {

    private final EventColumns columns;
    private final StringBuilder row = new StringBuilder();

    RowParser(EventColumns columns) {
      this.columns = columns;
    }

    @Override
    public void write(int character) {
      if (character != '\n') {
        row.append((char) character);
        return;
      }
      if (Character.isDigit(row.charAt(0))) {
        take();
      }
      row.setLength(0);
    }

    private void take() {
      int first = row.indexOf(",");
      int second = row.indexOf(",", first + 1);
      long time = Long.parseLong(row, 0, first, 10) * 1_000_000;
      int signal = signal(first + 1, second);
      long value = signal < FIRST_NUMBER ? row.charAt(second + 1) - '0'
          : Double.doubleToRawLongBits(Double.parseDouble(row.substring(second + 1)));
      columns.add(time, signal, value);
    }

    private int signal(int from, int to) {
      for (int signal = 0; signal < CampaignTrace.SIGNALS.length; signal++) {
        if (CampaignTrace.SIGNALS[signal].contentEquals(row.subSequence(from, to))) {
          return signal;
        }
      }
      throw new IllegalArgumentException("no such signal: " + row.substring(from, to));
    }
  }
}
