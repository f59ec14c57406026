package dev.pawl.grammar.rules.reference;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;

/** Draws the trace of an example as text: a line over time for each signal, at most 60 columns wide. */
final class TimingPicture {

  private static final int COLUMNS = 60;

  private final RuleBook book;
  private final RuleExample example;
  private final long end;
  private final long step;
  private final int label;

  TimingPicture(RuleBook book, RuleExample example) {
    this.book = book;
    this.example = example;
    this.end = example.end().orElseGet(() -> example.events().get(example.events().size() - 1).time());
    this.step = step(end);
    this.label = signals().stream().mapToInt(signal -> signal.name().length()).max().orElse(0) + 2;
  }

  String draw() {
    List<String> lines = new ArrayList<>(List.of(example.title(), axis()));
    signals().forEach(signal -> lines.add(padded(signal.name()) + line(signal)));
    return String.join("\n", lines.stream().map(String::stripTrailing).toList()) + "\n";
  }

  private List<Signal> signals() {
    return book.signals().stream().filter(signal -> example.events().stream()
        .anyMatch(e -> e.signal() == signal.index()))
        .toList();
  }

  private static long step(long length) {
    for (long power = 1; ; power *= 10) {
      for (long digit : new long[] {1, 2, 5}) {
        if (length <= power * digit * COLUMNS) {
          return power * digit;
        }
      }
    }
  }

  private String padded(String name) {
    return name + " ".repeat(label - name.length());
  }

  private String axis() {
    boolean seconds = step >= 50_000_000;
    StringBuilder axis = new StringBuilder(padded(seconds ? "t/s" : "t/ms"));
    for (int column = 0; column <= end / step; column += 10) {
      String time = number(column * step / (seconds ? 1e9 : 1e6));
      axis.append(time).append(" ".repeat(10 - time.length()));
    }
    return axis.toString();
  }

  private String line(Signal signal) {
    StringBuilder line = new StringBuilder();
    String shown = null;
    for (int column = 0; column <= end / step; column++) {
      String value = value(signal, column * step);
      if (signal.type() instanceof ValueType.Bool) {
        line.append(value);
      } else if (!value.equals(shown)) {
        line.setLength(Math.min(line.length(), column));
        line.append(value);
      } else if (line.length() <= column) {
        line.append('.');
      }
      shown = value;
    }
    return line.toString();
  }

  private String value(Signal signal, long time) {
    long value = RuleExample.UNKNOWN;
    for (RuleExample.Event event : example.events()) {
      value = event.signal() == signal.index() && event.time() <= time ? event.value() : value;
    }
    if (value == RuleExample.UNKNOWN) {
      return "?";
    }
    if (signal.type() instanceof ValueType.Enumeration type) {
      return type.names().get((int) value);
    }
    if (signal.type() instanceof ValueType.Quantity type) {
      return number(type.toWritten(Double.longBitsToDouble(value)));
    }
    return value == 1 ? "\u203e" : "_";
  }

  private static String number(double value) {
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(6)).stripTrailingZeros();
    return rounded.signum() == 0 ? "0" : rounded.toPlainString();
  }
}
