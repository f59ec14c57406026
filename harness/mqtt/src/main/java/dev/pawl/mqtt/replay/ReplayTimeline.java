package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.feed.Timeline;
import java.util.concurrent.atomic.AtomicLong;

/**
 * The trace's own time while it is played at a pace: trace time runs from the first input on, so many times as fast as
 * the clock. Answers that bear the bench side's stamp are taken at the time that it states; others at the trace time at
 * which they arrive, or step by step at the instant of the step that they answer, which may be late by the length of a
 * step.
 */
final class ReplayTimeline implements Timeline {

  private static final long NOT_STARTED = Long.MIN_VALUE;
  private static final long RUNS = Long.MAX_VALUE;

  private final double factor;
  private final long window;
  private volatile long traceStart = NOT_STARTED;
  private volatile Stretch stretch = new Stretch(0, RUNS, NOT_STARTED, null);
  private volatile long played = NOT_STARTED;
  private volatile long asked = NOT_STARTED;
  private volatile long longestStep;
  private final AtomicLong untimed = new AtomicLong();

  /**
   * How trace time runs beside the harness's clock, from one stop to the next.
   *
   * @param start harness time of the trace's start, as if it had run so from there on
   * @param stop trace time at which it stands then; {@link #RUNS} as long as it runs
   * @param from harness time from which on it runs so
   * @param before how it ran before that; null for the first
   */
  private record Stretch(long start, long stop, long from, Stretch before) {}

  /**
   * A timeline for a pace.
   *
   * @param window nanoseconds to wait for answers that may still come out of order; 0 where none states its sender's
   *     time
   */
  ReplayTimeline(Pace pace, long window) {
    this.window = window;
    this.factor = pace.factor();
  }

  /** The first input, of the given trace time, is due at the given harness time. */
  void start(long traceTime, long clockTime) {
    stretch = new Stretch(clockTime, RUNS, NOT_STARTED, null);
    played = traceTime;
    asked = traceTime;
    traceStart = traceTime;
  }

  /** Harness time at which a trace time is due. */
  long due(long traceTime) {
    return stretch.start() + (long) ((traceTime - traceStart) / factor);
  }

  /**
   * Trace time stands still at the given one from now on, since nothing can be sent; step by step it does so anyway.
   */
  void stop(long traceTime) {
    if (factor != 0) {
      stretch = new Stretch(stretch.start(), traceTime, stretch.from(), stretch.before());
    }
  }

  /** Trace time goes on from where it stood, if it did. */
  void goOn(long clockTime) {
    Stretch stood = stretch;
    if (stood.stop() != RUNS) {
      stretch = new Stretch(stood.start() + clockTime - due(stood.stop()), RUNS, clockTime, stood);
    }
  }

  /** The bench side is asked to come to this trace time. */
  void asks(long traceTime) {
    longestStep = Math.max(longestStep, traceTime - asked);
    asked = traceTime;
  }

  /** Values taken that stated no time. */
  long untimed() {
    return untimed.get();
  }

  /** Longest time between two steps, in nanoseconds of trace time. */
  long longestStep() {
    return longestStep;
  }

  /** All inputs before this trace time have been put into the queue. */
  void playedUntil(long traceTime) {
    played = traceTime;
  }

  @Override
  public long ofArrival(long arrival) {
    if (traceStart == NOT_STARTED) {
      return NOT_STARTED;
    }
    if (factor == 0) {
      return played;
    }
    Stretch then = stretch;
    while (arrival < then.from()) {
      then = then.before();
    }
    return Math.min(then.stop(), Math.max(traceStart, traceStart + (long) ((arrival - then.start()) * factor)));
  }

  @Override
  public long ofUntimed(long arrival) {
    if (factor != 0) {
      return ofArrival(arrival);
    }
    untimed.incrementAndGet();
    return asked;
  }

  @Override
  public long ofStamp(long stamped, long arrival) {
    return stamped;
  }

  @Override
  public long horizon(long settled) {
    return factor == 0 ? played : Math.min(played, ofArrival(settled - window));
  }
}
