package dev.pawl.trace.vcd;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.trace.output.ByteSink;
import dev.pawl.trace.output.TraceWriter;
import dev.pawl.trace.output.ValueSpelling;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * The writer of value change dumps in nanoseconds: bools as wires of one bit, enumerations as vectors that count their
 * members from 0, numbers as reals in the declared unit. A number that is unknown is written as {@code rnan}, since a
 * real has no {@code x}.
 */
public final class VcdWriter implements TraceWriter {

  private static final int FIRST_CODE = '!';
  private static final int CODES = '~' - '!' + 1;

  private final ByteSink out;
  private final List<Signal> signals;
  private final ValueSpelling values;
  private final byte[][] codes;
  private final Spelling[] spellings;
  private long last = -1;

  /**
   * A writer that has written its declarations.
   *
   * @param signals the signals by index
   * @param scope what to call the whole, in letters, digits and underscores
   */
  public VcdWriter(OutputStream out, List<Signal> signals, String scope) {
    this.out = new ByteSink(out);
    this.signals = List.copyOf(signals);
    this.values = new ValueSpelling(signals);
    this.codes = new byte[signals.size()][];
    this.spellings = signals.stream().map(this::spelling).toArray(Spelling[]::new);
    this.out.text("$version Pawl $end\n$timescale 1 ns $end\n$scope module ").text(scope).text(" $end\n");
    signals.forEach(this::declare);
    this.out.text("$upscope $end\n$enddefinitions $end\n");
  }

  private void declare(Signal signal) {
    String code = code(signal.index());
    codes[signal.index()] = (code + "\n").getBytes(StandardCharsets.US_ASCII);
    String kind = signal.type().match(bool -> "wire 1", enumeration -> {
      comment(signal.name() + " counts from 0: " + String.join(", ", enumeration.names()));
      return "reg " + width(enumeration);
    }, quantity -> {
      comment(signal.name() + " in " + (quantity.unit().isEmpty() ? "plain numbers" : quantity.unit()));
      return "real 64";
    });
    out.text("$var " + kind + " " + code + " " + signal.name() + " $end\n");
  }

  private void comment(String text) {
    out.text("$comment " + text + " $end\n");
  }

  private static int width(ValueType.Enumeration enumeration) {
    return Math.max(1, 32 - Integer.numberOfLeadingZeros(enumeration.names().size() - 1));
  }

  /** Short codes of printable characters, as the standard wants. */
  private static String code(int index) {
    StringBuilder code = new StringBuilder();
    int rest = index;
    do {
      code.append((char) (FIRST_CODE + rest % CODES));
      rest = rest / CODES - 1;
    } while (rest >= 0);
    return code.toString();
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    mark(time);
    spellings[signal].write(value);
    out.bytes(codes[signal]);
  }

  /** Writes the values of one signal. */
  private interface Spelling {
    void write(long value);
  }

  private Spelling spelling(Signal signal) {
    return signal.type().match(
        bool -> value -> out.character(value == EventSink.UNKNOWN ? 'x' : value == 0 ? '0' : '1'),
        enumeration -> value -> out.text(value == EventSink.UNKNOWN ? "bx " : "b" + Long.toBinaryString(value) + " "),
        quantity -> value -> out.text(value == EventSink.UNKNOWN ? "rnan " : "r" + values.of(signal.index(), value)
            + " "));
  }

  /** Writes a time mark, and with the first one that nothing is known yet. */
  private void mark(long time) {
    if (time == last) {
      return;
    }
    if (time < 0) {
      throw new IllegalArgumentException("a value change dump cannot hold times before zero");
    }
    out.character('#').number(time).character('\n');
    if (last < 0) {
      out.text("$dumpvars\n");
      for (Signal signal : signals) {
        spellings[signal.index()].write(EventSink.UNKNOWN);
        out.bytes(codes[signal.index()]);
      }
      out.text("$end\n");
    }
    last = time;
  }

  /** Time alone is no change. */
  @Override
  public void advanceTo(long time) {}

  @Override
  public void flush() {
    out.flush();
  }

  @Override
  public void end(long time) {
    mark(time);
  }

  @Override
  public void close() throws IOException {
    out.close();
  }
}
