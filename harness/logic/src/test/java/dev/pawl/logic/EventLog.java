package dev.pawl.logic;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.ArrayList;
import java.util.List;

/** A judge that only writes down what it is told. Times are in milliseconds. */
final class EventLog implements EventSink {

  private final RuleBook book;
  private final List<String> files;
  final List<String> lines = new ArrayList<>();
  private long last = Long.MIN_VALUE;

  EventLog(RuleBook book, List<String> files) {
    this.book = book;
    this.files = files;
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (time < last) {
      throw new AssertionError("time runs backwards: " + time + " after " + last);
    }
    last = time;
    Signal declared = book.signals().get(signal);
    String place = ProgramLine.decode(line, files).map(ProgramLine::toString).orElse(line == 0 ? "-" : "trace:" + line);
    lines.add(time / 1e6 + " " + declared.name() + "=" + shown(declared.type(), value) + " " + place);
  }

  private static String shown(ValueType type, long value) {
    if (value == UNKNOWN) {
      return "?";
    }
    if (type instanceof ValueType.Enumeration names) {
      return names.names().get((int) value);
    }
    return type instanceof ValueType.Quantity ? Double.toString(Double.longBitsToDouble(value)) : Long.toString(value);
  }

  @Override
  public void advanceTo(long time) {
    lines.add(time / 1e6 + " advance");
  }
}
