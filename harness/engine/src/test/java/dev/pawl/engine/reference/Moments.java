package dev.pawl.engine.reference;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.Sampling;
import dev.pawl.engine.Sight;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Expr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.OptionalLong;
import java.util.TreeSet;
import java.util.stream.LongStream;

/**
 * The moments of one trace. Moment {@code i} here is moment {@code 2*t0 + i} of the page: even ones are times, odd ones
 * the open intervals between. Every table has one entry per moment.
 */
final class Moments {
  final RuleBook book;
  final int count;
  final TruthTables truths;
  final NumberTables numbers = new NumberTables(this, false);
  final Sampling sampling;
  private final List<TraceEvent> events;
  private final long[][] values;
  private final Map<Integer, ZoneTable> zones = new HashMap<>();
  private final Map<List<Object>, TruthTables> tables = new HashMap<>();

  Moments(RuleBook book, Trace trace) {
    this.book = book;
    this.sampling = trace.sampling();
    this.events = trace.events();
    this.count = Math.toIntExact(2 * (trace.end() - trace.start()) + 1);
    this.truths = tables(false);
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

  /** Truths as a rule of some resolution, in nanoseconds, reads them at another's moment. */
  TruthTables read(Slack slack, long resolution) {
    return tables(slack.apart(), OptionalLong.of(resolution), false);
  }

  /** Truths as they seem to be; or what looks back sees of them. */
  TruthTables tables(boolean lookedBackAt) {
    return tables(0, OptionalLong.empty(), lookedBackAt);
  }

  /** Truths with durations that are off by some moments. */
  TruthTables tables(long slack, OptionalLong resolution, boolean lookedBackAt) {
    return tables.computeIfAbsent(List.of(slack, resolution, lookedBackAt),
        it -> new TruthTables(this, slack, resolution, lookedBackAt));
  }

  /**
   * The moment at which something begins that looks back at events, if that is so late that they may have happened
   * before anybody looked; -1 else.
   */
  int beginsLate(Expr lookingBack) {
    boolean[] events = {!(lookingBack instanceof BoolExpr)};
    lookingBack.walk(part -> events[0] |= part instanceof BoolExpr.Moment);
    int begins = begins(List.of(lookingBack));
    return events[0] && begins < count && begins > 2 * sampling.firstValuesWithin() ? begins : -1;
  }

  int last() {
    return count - 1;
  }

  /** The engine value of a signal at a moment. */
  long value(int signal, int moment) {
    return values[signal][moment];
  }

  /**
   * The first moment at which every signal that expressions read, through their zones, has been logged; {@code count}
   * where one never is.
   */
  int begins(List<? extends Expr> expressions) {
    return RuleParts.signals(expressions, book).stream().mapToInt(this::begins).reduce(0, Math::max);
  }

  /** Whether an expression has not begun at a moment; before the start none has. */
  boolean isUnseen(Expr expression, int moment) {
    return begins(List.of(expression)) > moment;
  }

  int begins(int signal) {
    int first = 0;
    while (first < count && values[signal][first] == EventSink.UNKNOWN) {
      first++;
    }
    return first;
  }

  /** The moments at which one of some signals takes another value, if only to take it back at the same time. */
  NavigableSet<Integer> changes(Collection<Integer> signals) {
    NavigableSet<Integer> changes = new TreeSet<>();
    for (int signal : signals) {
      long before = EventSink.UNKNOWN;
      for (TraceEvent event : events) {
        if (event.signal() == signal && event.value() != before) {
          before = event.value();
          changes.add(Math.toIntExact(2 * (event.time() - events.get(0).time())));
        }
      }
    }
    return changes;
  }

  /** What was seen of a signal. */
  Sight sight(int signal) {
    long known = LongStream.of(values[signal]).filter(value -> value != EventSink.UNKNOWN).distinct().count();
    return known == 0 ? Sight.NEVER : known == 1 ? Sight.ONE_VALUE : Sight.CHANGING;
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
}
