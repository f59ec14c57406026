package dev.pawl.trace.csv;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.trace.output.ByteSink;
import dev.pawl.trace.output.TraceWriter;
import dev.pawl.trace.output.ValueSpelling;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** The writer of the long CSV form, a row as soon as its event comes. Reading gives the same events again. */
public final class CsvWriter implements TraceWriter {

  private static final byte[] OFF = "0,good\n".getBytes(StandardCharsets.US_ASCII);
  private static final byte[] ON = "1,good\n".getBytes(StandardCharsets.US_ASCII);

  private final ByteSink out;
  private final TimeScale scale;
  private final ValueSpelling values;
  private final byte[][] names;
  private final boolean[] bits;

  /**
   * A writer that has written its header.
   *
   * @param signals the signals by index
   * @param scale how to write times
   */
  public CsvWriter(OutputStream out, List<Signal> signals, TimeScale scale) {
    this(out, signals, scale, header(scale) + "\n");
  }

  /** A writer of further rows to a trace that has its header already. */
  public static CsvWriter continuing(OutputStream out, List<Signal> signals, TimeScale scale) {
    return new CsvWriter(out, signals, scale, "");
  }

  /** The first line of what is written here. */
  public static String header(TimeScale scale) {
    return scale.column() + ",signal,value,quality";
  }

  private CsvWriter(OutputStream out, List<Signal> signals, TimeScale scale, String start) {
    this.out = new ByteSink(out);
    this.scale = scale;
    this.values = new ValueSpelling(signals);
    this.names = new byte[signals.size()][];
    this.bits = new boolean[signals.size()];
    for (Signal signal : signals) {
      names[signal.index()] = ("," + field(signal.name()) + ",").getBytes(StandardCharsets.UTF_8);
      bits[signal.index()] = signal.type().isBool();
    }
    this.out.text(start);
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    out.time(time, scale).bytes(names[signal]);
    if (value == EventSink.UNKNOWN) {
      out.text(",bad\n");
    } else if (bits[signal]) {
      out.bytes(value == 0 ? OFF : ON);
    } else {
      out.text(field(values.of(signal, value))).text(",good\n");
    }
  }

  /** Time alone is no row. */
  @Override
  public void advanceTo(long time) {}

  @Override
  public void flush() {
    out.flush();
  }

  @Override
  public void end(long time) {
    out.text(Remarks.END + " ").time(time, scale).text("\n");
  }

  /** A text as RFC 4180 wants it in a field. */
  static String field(String text) {
    boolean plain = text.indexOf(',') < 0 && text.indexOf('"') < 0 && text.indexOf('\n') < 0 && text.indexOf('\r') < 0;
    return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
  }

  @Override
  public void close() throws IOException {
    out.close();
  }
}
