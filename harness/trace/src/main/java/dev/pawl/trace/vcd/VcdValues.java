package dev.pawl.trace.vcd;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.bytes.NameTable;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.UnreadableTrace;
import dev.pawl.trace.intake.ValueReader;
import java.util.Arrays;

/**
 * The value changes of a dump. Bits and vectors mean their number, reals theirs; {@code x} or {@code z} in any bit
 * makes the signal unknown. An enumeration without bound codes counts its members from 0.
 */
final class VcdValues {

  private static final int WIDEST = 64;

  private final Intake intake;
  private final Variables variables;
  private final VcdTime clock;
  private byte[] text = new byte[64 + 2 * NameTable.SLACK];
  private final byte[] digits = new byte[20 + 2 * NameTable.SLACK];
  private int textEnd;
  private boolean real;
  private boolean listing;
  private boolean off;

  VcdValues(Intake intake, Variables variables, VcdTime clock) {
    this.intake = intake;
    this.variables = variables;
    this.clock = clock;
  }

  /**
   * Enters or leaves a section that lists all values.
   *
   * @param suspended whether dumping stops there, so that all becomes unknown
   */
  void section(boolean enters, boolean suspended) {
    listing = enters;
    off = suspended;
  }

  /** Takes {@code 0!}, {@code 1!}, {@code x!} or {@code z!}. */
  void scalar(byte[] bytes, int from, int to, long line) throws UnreadableTrace {
    boolean known = bytes[from] == '0' || bytes[from] == '1';
    boolean unknown = "xXzZ".indexOf(bytes[from]) >= 0;
    if (!known && !unknown || to - from < 2) {
      malformed(bytes, from, to, line);
      return;
    }
    text[NameTable.SLACK] = bytes[from];
    textEnd = NameTable.SLACK + 1;
    real = false;
    code(bytes, from + 1, to, line);
  }

  /** Takes {@code b0101} or {@code r1.5}; the code follows. */
  void vector(byte[] bytes, int from, int to) {
    real = (bytes[from] | 0x20) == 'r';
    int length = to - from - 1;
    if (length + 2 * NameTable.SLACK > text.length) {
      text = new byte[2 * length + 2 * NameTable.SLACK];
    }
    System.arraycopy(bytes, from + 1, text, NameTable.SLACK, length);
    textEnd = NameTable.SLACK + length;
  }

  /** Takes the code to which the value before belongs. */
  void code(byte[] bytes, int from, int to, long line) throws UnreadableTrace {
    int place = variables.find(bytes, from, to);
    if (place < 0) {
      intake.problems().add(ProblemKind.MALFORMED, line, 1, to - from,
          () -> "no variable is declared with the code " + Excerpt.of(bytes, from, to), () -> "declare it with $var");
      return;
    }
    for (Variables.Carrier carrier : variables.carriers(place)) {
      change(carrier, line);
    }
  }

  private void change(Variables.Carrier carrier, long line) throws UnreadableTrace {
    clock.changes(intake, line);
    int channel = carrier.channel();
    long value = value(carrier);
    if (value == ValueReader.INVALID) {
      Channels channels = intake.channels();
      byte[] shown = Arrays.copyOfRange(text, NameTable.SLACK, textEnd);
      intake.problems().add(ProblemKind.WRONG_VALUE, line, 1, 1,
          () -> Excerpt.of(shown, 0, shown.length) + " is no value of signal " + Excerpt.of(channels.tag(channel)),
          () -> "write the number of " + channels.reader(channel).expectation());
      intake.doubt(clock.now(), channel, line);
    } else if (listing) {
      intake.restate(clock.now(), channel, value, line);
    } else {
      intake.change(clock.now(), channel, value, line);
    }
  }

  private long value(Variables.Carrier carrier) {
    ValueReader reader = intake.channels().reader(carrier.channel());
    if (real) {
      boolean none = off || textEnd == NameTable.SLACK + 3 && (text[NameTable.SLACK] | 0x20) == 'n';
      return none ? EventSink.UNKNOWN : reader.read(text, NameTable.SLACK, textEnd);
    }
    long number = 0;
    boolean unknown = off || textEnd == NameTable.SLACK;
    int bits = textEnd - NameTable.SLACK;
    int significant = 0;
    for (int i = NameTable.SLACK; i < textEnd; i++) {
      if ("xXzZ".indexOf(text[i]) >= 0) {
        unknown = true;
      } else if (text[i] != '0' && text[i] != '1') {
        return ValueReader.INVALID;
      }
      significant += significant > 0 || text[i] == '1' ? 1 : 0;
      number = number << 1 | text[i] & 1;
    }
    if (unknown) {
      return EventSink.UNKNOWN;
    }
    boolean negative = carrier.signed() && bits == carrier.size() && bits > 1 && text[NameTable.SLACK] == '1';
    if (significant > WIDEST) {
      return ValueReader.INVALID;
    }
    if (negative) {
      number = number << WIDEST - bits >> WIDEST - bits;
    }
    return number < 0 && !negative ? unsigned(reader, number) : reader.readNumber(number);
  }

  /** A number beyond those with a sign, by its digits. */
  private long unsigned(ValueReader reader, long number) {
    int end = digits.length - NameTable.SLACK;
    int at = end;
    for (long rest = number; rest != 0; rest = Long.divideUnsigned(rest, 10)) {
      digits[--at] = (byte) ('0' + Long.remainderUnsigned(rest, 10));
    }
    return reader.read(digits, at, end);
  }

  private void malformed(byte[] bytes, int from, int to, long line) {
    intake.problems().add(ProblemKind.MALFORMED, line, 1, to - from,
        () -> Excerpt.of(bytes, from, to) + " is no value change", () -> "write such as 0! or b101 ! or r1.5 !");
  }
}
