package dev.pawl.engine.evaluation;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.Sight;
import dev.pawl.engine.TraceOutcome;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** The events of one trace as they arrive: sees to their order, counts them, and tells which change anything. */
public final class Arrivals {

  /**
   * Times must lie within this many nanoseconds of the epoch, some 73 years either way for a trace that starts at 0.
   */
  private static final long TIME_LIMIT = Long.MAX_VALUE / 4;
  private static final long NOT_BEGUN = Long.MIN_VALUE;

  private final Last[] signals;
  private long start = NOT_BEGUN;
  private long now = NOT_BEGUN;
  private long events;
  private long overwritten;

  /** The last event of a signal. */
  private static final class Last {
    long time = NOT_BEGUN;
    long value = EventSink.UNKNOWN;
    /** Since when it has had the value. */
    long since = NOT_BEGUN;
    /** The first known value. */
    long first = EventSink.UNKNOWN;
    boolean changed;

    /** The value ends. One that stood for no time was never seen. */
    void end(long now) {
      if (value != EventSink.UNKNOWN && since != now) {
        changed |= first != EventSink.UNKNOWN && value != first;
        first = first == EventSink.UNKNOWN ? value : first;
      }
      since = now;
    }

    Sight sight() {
      end(Long.MAX_VALUE);
      return first == EventSink.UNKNOWN ? Sight.NEVER : changed ? Sight.CHANGING : Sight.ONE_VALUE;
    }
  }

  public Arrivals(int signals) {
    this.signals = Stream.generate(Last::new).limit(signals).toArray(Last[]::new);
  }

  /** Whether any time has been told. */
  public boolean haveBegun() {
    return start != NOT_BEGUN;
  }

  /** Nanoseconds, the last time told; 0 before any. */
  public long now() {
    return haveBegun() ? now : 0;
  }

  /**
   * Takes an event, as {@link EventSink#event}.
   *
   * @return whether it gives its signal another value
   * @throws IllegalArgumentException if it comes out of order, or too far from the epoch
   */
  public boolean take(long time, int signal, long value) {
    moveTo(time);
    events++;
    Last last = signals[signal];
    boolean changes = last.value != value;
    if (changes) {
      overwritten += last.time == time ? 1 : 0;
      last.end(time);
    }
    last.time = time;
    last.value = value;
    return changes;
  }

  /**
   * States that no event earlier than {@code time} will come.
   *
   * @throws IllegalArgumentException if one later has come, or it is too far from the epoch
   */
  public void moveTo(long time) {
    // Whether this time is another than the last cannot be foreseen, so that asking would cost more than it saves.
    if (time < now || time < -TIME_LIMIT || time > TIME_LIMIT) {
      throw refusal(time);
    }
    if (start == NOT_BEGUN) {
      start = time;
    }
    now = time;
  }

  private IllegalArgumentException refusal(long time) {
    return new IllegalArgumentException(time < now ? "time " + time + " ns after " + now
        + " ns: events have to come in order of time"
        : "time " + time + " ns: has to be within " + TIME_LIMIT + " ns of zero");
  }

  /** What the trace says up to now about all that parts evaluate. */
  public TraceOutcome outcome(List<Evaluation> parts) {
    return new TraceOutcome(haveBegun() ? start : 0, now(), events, overwritten,
        parts.stream().flatMap(part -> part.rules().stream()).sorted(Comparator.comparingInt(rule -> rule.rule()))
            .toList(),
        parts.stream().flatMap(part -> part.zones().stream()).sorted(Comparator.comparingInt(zone -> zone.zone()))
            .toList(),
        Stream.of(signals).map(Last::sight).toList());
  }
}
