package dev.pawl.trace.fuzz;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;

/** A sink that holds a reader to what {@link EventSink} promises the engine, and keeps a digest of what came. */
final class OrderSink implements EventSink {

  private final RuleBook book;
  private long latest = Long.MIN_VALUE;
  private long events;
  private long digest;

  OrderSink(RuleBook book) {
    this.book = book;
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    Expect.that(time >= latest, "an event at " + time + " after time " + latest);
    Expect.that(signal >= 0 && signal < book.signals().size(), "an event of signal " + signal);
    Expect.that(isPossible(book.signals().get(signal), value), "value " + value + " for " + book.signals().get(signal));
    Expect.that(line >= 1, "an event from line " + line);
    latest = time;
    events++;
    digest = (((digest * 31 + time) * 31 + signal) * 31 + value) * 31 + line;
  }

  @Override
  public void advanceTo(long time) {
    Expect.that(time >= latest, "advanced to " + time + " after time " + latest);
    latest = time;
  }

  private static boolean isPossible(Signal signal, long value) {
    ValueType type = signal.type();
    if (value == UNKNOWN) {
      return true;
    }
    if (type instanceof ValueType.Bool) {
      return value == 0 || value == 1;
    }
    if (type instanceof ValueType.Enumeration enumeration) {
      return value >= 0 && value < enumeration.names().size();
    }
    return Double.isFinite(Double.longBitsToDouble(value));
  }

  long events() {
    return events;
  }

  /** Depends on each event, its line and their order. */
  long digest() {
    return digest;
  }
}
