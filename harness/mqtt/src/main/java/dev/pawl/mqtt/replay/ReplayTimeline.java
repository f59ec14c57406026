package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.feed.Timeline;
import dev.pawl.mqtt.time.ClockOffset;
import java.util.concurrent.atomic.AtomicLong;

/**
 * The trace's own time while it is played at a pace: trace time runs from the first input on, so many times as fast as the clock. Answers
 * that bear the bench side's stamp are taken at the time that it states; others at the trace time at which they arrive, or step by step at
 * the instant of the step that they answer, which may be late by the length of a step.
 */
final class ReplayTimeline implements Timeline {

  private static final long NOT_STARTED = Long.MIN_VALUE;

  private final double factor;
  private volatile long traceStart = NOT_STARTED;
  private volatile long clockStart;
  private volatile long played = NOT_STARTED;
  private volatile long asked = NOT_STARTED;
  private volatile long longestStep;
  private final AtomicLong untimed = new AtomicLong();
  private final ClockOffset offset = new ClockOffset(Long.MAX_VALUE);

  ReplayTimeline(Pace pace) {
    this.factor = pace.factor();
  }

  /** The first input, of the given trace time, is due at the given harness time. */
  void start(long traceTime, long clockTime) {
    clockStart = clockTime;
    played = traceTime;
    asked = traceTime;
    traceStart = traceTime;
  }

  /** Harness time at which a trace time is due. */
  long due(long traceTime) {
    return clockStart + (long) ((traceTime - traceStart) / factor);
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
    return factor == 0 ? played : Math.max(traceStart, traceStart + (long) ((arrival - clockStart) * factor));
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

  /** What a foreign clock states is mapped onto the harness's clock by the estimated offset. */
  @Override
  public long ofStated(long stated, long arrival) {
    offset.sample(stated, arrival);
    return ofArrival(stated + offset.nanoseconds());
  }

  @Override
  public long horizon(long settled) {
    return factor == 0 ? played : Math.min(played, ofArrival(settled));
  }
}
