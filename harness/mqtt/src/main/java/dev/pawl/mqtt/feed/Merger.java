package dev.pawl.mqtt.feed;

import dev.pawl.engine.EventSink;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.trace.intake.ReorderWindow;
import java.util.Arrays;
import java.util.List;

/**
 * Puts readings in order of time and lets time pass. What comes later than the horizon is told and makes its signal
 * unknown from there until its next value: what was judged is never taken back, and at which time the late value stood
 * is no longer free.
 */
public final class Merger {

  private final Timeline timeline;
  private final SenderClocks clocks;
  private final SenderClocks.Correction correction = this::corrected;
  private final EvidenceLog evidence;
  private final EventSink out;
  /** Messages have no lines. */
  private static final long NO_LINE = 0;

  private final ReorderWindow window = new ReorderWindow();
  private final long[] present;
  /**
   * Stream time at which a signal was last known, or unknown, by an arrival: what states its time and came later is not
   * before it.
   */
  private final long[] arrivedTime;
  private final long[] releasedTime;
  private final long[] releasedValue;
  private long horizon = Long.MIN_VALUE;
  private boolean begun;

  /**
   * A merger into {@code out}.
   *
   * @param signals how many signals there are
   */
  public Merger(int signals, Timeline timeline, SenderClocks clocks, EvidenceLog evidence, EventSink out) {
    this.timeline = timeline;
    this.clocks = clocks;
    this.evidence = evidence;
    this.out = out;
    this.present = new long[signals];
    Arrays.fill(present, EventSink.UNKNOWN);
    this.arrivedTime = new long[signals];
    Arrays.fill(arrivedTime, Long.MIN_VALUE);
    this.releasedTime = new long[signals];
    this.releasedValue = new long[signals];
    Arrays.fill(releasedTime, Long.MIN_VALUE);
  }

  /** Takes a value that was there before it arrived. */
  public void arrived(int signal, long value, long arrival) {
    arrivedTime[signal] = timeline.ofArrival(arrival);
    place(arrivedTime[signal], signal, value);
  }

  /** Takes a value of the moment that states no time. */
  public void untimed(int signal, long value, long arrival) {
    place(timeline.ofUntimed(arrival), signal, value);
  }

  /** Takes a value that states its time. */
  public void stated(int signal, long value, long stated, long arrival) {
    long time = timeline.ofArrival(clocks.harnessTime(signal, stated, arrival, correction));
    if (time < horizon && time == releasedTime[signal] && value == releasedValue[signal]) {
      evidence.note(Anomaly.DUPLICATE, time, signal, "a value came again with the same time");
      return;
    }
    if (value == EventSink.UNKNOWN && present[signal] == EventSink.UNKNOWN) {
      return;
    }
    place(Math.max(time, arrivedTime[signal]), signal, value);
  }

  /** Takes a value whose message bears the time of the trace that is played. */
  public void stamped(int signal, long value, long stamp, long arrival) {
    place(timeline.ofStamp(stamp, arrival), signal, value);
  }

  /** Takes a value at a stream time. */
  public void place(long time, int signal, long value) {
    if (time < horizon) {
      evidence.note(Anomaly.LATE, time, signal, "a value came " + (horizon - time) / 1_000_000
          + " ms later than the window waits");
      window.add(horizon, signal, EventSink.UNKNOWN, NO_LINE);
      return;
    }
    present[signal] = value;
    window.add(time, signal, value, NO_LINE);
  }

  /** One signal is not known from now on, if it was. */
  public void unknown(int signal, long arrival) {
    if (present[signal] != EventSink.UNKNOWN) {
      arrivedTime[signal] = Math.max(horizon, timeline.ofArrival(arrival));
      place(arrivedTime[signal], signal, EventSink.UNKNOWN);
    }
  }

  /** Nothing is known from now on. */
  public void allUnknown(long arrival) {
    for (int signal = 0; signal < present.length; signal++) {
      unknown(signal, arrival);
    }
  }

  /** A sender's clock was not what it was taken for: what it stated and is not handed on yet is not known. */
  private void corrected(List<Integer> signals, long forward) {
    String what = "it went " + (forward > 0 ? "forward" : "back") + " by " + Math.abs(forward) / 1_000_000 + " ms";
    evidence.note(Anomaly.CLOCK_JUMP, Math.max(0, horizon), signals, what);
    for (int signal : signals) {
      present[signal] = EventSink.UNKNOWN;
      window.replace(signal, EventSink.UNKNOWN);
      if (releasedTime[signal] != Long.MIN_VALUE) {
        window.add(horizon, signal, EventSink.UNKNOWN, NO_LINE);
      }
    }
  }

  /**
   * Lets time pass: hands on all events before the horizon, then tells how far time has come. A trace begins with its
   * first event, so nothing is told before that.
   *
   * @param settled harness time up to which all that arrived has been taken
   */
  public void advance(long settled) {
    long next = timeline.horizon(settled);
    if (next > horizon) {
      horizon = next;
      window.releaseBefore(horizon, this::release);
      if (begun) {
        out.advanceTo(horizon);
      }
    }
  }

  /** Hands on everything that still waits. */
  public void drain() {
    window.releaseBefore(Long.MAX_VALUE, this::release);
  }

  /**
   * What says the same of the same time again, as a repeated message does, is no event: a trace must not hold a row
   * twice.
   */
  private void release(long time, int signal, long value, long line) {
    if (time == releasedTime[signal] && value == releasedValue[signal]) {
      return;
    }
    releasedTime[signal] = time;
    releasedValue[signal] = value;
    begun = true;
    out.event(time, signal, value, 0);
  }

  /** Stream time before which everything has been handed on. */
  public long horizon() {
    return horizon;
  }

  public EvidenceLog evidence() {
    return evidence;
  }

  public Timeline timeline() {
    return timeline;
  }
}
