package dev.pawl.engine.reference;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Truth;
import java.util.HashMap;
import java.util.Map;

/**
 * The moments of one trace. Moment {@code i} here is moment {@code 2*t0 + i} of the page: even ones are times, odd ones the open
 * intervals between. Every table has one entry per moment.
 */
final class Moments {
  final RuleBook book;
  final int count;
  final TruthTables truths = new TruthTables(this);
  final NumberTables numbers = new NumberTables(this);
  private final long[][] values;
  private final Map<Integer, ZoneTable> zones = new HashMap<>();

  Moments(RuleBook book, Trace trace) {
    this.book = book;
    this.count = Math.toIntExact(2 * (trace.end() - trace.start()) + 1);
    this.values = new long[book.signals().size()][count];
    for (int signal = 0; signal < values.length; signal++) {
      for (int moment = 0; moment < count; moment++) {
        values[signal][moment] = valueAt(trace, signal, moment);
      }
    }
  }

  private static long valueAt(Trace trace, int signal, int moment) {
    long value = EventSink.UNKNOWN;
    for (TraceEvent event : trace.events()) {
      if (event.signal() == signal && 2 * (event.time() - trace.start()) <= moment) {
        value = event.value();
      }
    }
    return value;
  }

  int last() {
    return count - 1;
  }

  /** The engine value of a signal at a moment. */
  long value(int signal, int moment) {
    return values[signal][moment];
  }

  /** The first moment at which every signal that a rule reads, through its zones, has been logged; {@code count} where one never is. */
  int begins(Rule.When when) {
    return RuleParts.signals(when.conditions(), book).stream().mapToInt(this::begins).reduce(0, Math::max);
  }

  private int begins(int signal) {
    int first = 0;
    while (first < count && values[signal][first] == EventSink.UNKNOWN) {
      first++;
    }
    return first;
  }

  ZoneTable zone(int index) {
    ZoneTable table = zones.get(index);
    if (table == null) {
      table = new ZoneTable(this, book.zones().get(index));
      zones.put(index, table);
    }
    return table;
  }

  static boolean isUnknown(Truth truth) {
    return truth == Truth.UNKNOWN || truth == Truth.BORDERLINE;
  }

  /** Whether an event happens at a moment: true there and not just before. */
  static boolean happens(Truth[] event, int moment) {
    return event[moment] == Truth.TRUE && (moment == 0 || event[moment - 1] != Truth.TRUE);
  }

  /** Whether an event possibly happens at a moment: not known there, and known just before. */
  static boolean possiblyHappens(Truth[] event, int moment) {
    return isUnknown(event[moment]) && (moment == 0 || !isUnknown(event[moment - 1]));
  }
}
