package dev.pawl.trace.feedback;

import dev.pawl.engine.EventSink;

/** An output that a controller gives, and the recorded one. */
final class OutputPair {

  static final long NOT_DUE = Long.MAX_VALUE;

  private static final long NEVER = Long.MIN_VALUE;

  private final int output;
  private final long late;
  private final RecentValues computed;
  private final RecentValues recorded;
  /** Since when they differ; where one only lags behind, since the other left the value that this one has. */
  private long since = NEVER;
  private long due = NOT_DUE;
  private long valueRecorded;
  private long valueComputed;
  private long firstChange = NEVER;
  private boolean missed;
  private boolean departed;

  /** A pair that may differ for so many nanoseconds. */
  OutputPair(int output, long late, SameValue same) {
    this.output = output;
    this.late = late;
    this.computed = new RecentValues(same, late);
    this.recorded = new RecentValues(same, late);
  }

  /** The time up to which they may differ, where they do. */
  long due() {
    return due;
  }

  /** The last time up to which what follows the output is evidence whatever comes, where they differ. */
  long sound() {
    return due == NOT_DUE ? NOT_DUE : missed ? due : since;
  }

  /** Whether the trace has values of the output, from its first change on. */
  boolean isRecorded() {
    return recorded.isKnown() && !missed;
  }

  /** Nothing is compared any more. */
  Departure depart() {
    departed = true;
    due = NOT_DUE;
    return new Departure(output, since, valueRecorded, valueComputed);
  }

  /** What differs now need not matter any more. */
  void forgive() {
    due = NOT_DUE;
  }

  void compute(long time, long value) {
    if (computed.isKnown() && firstChange == NEVER && value != computed.value()) {
      firstChange = time;
    }
    computed.come(time, value);
    compare(time);
  }

  void record(long time, long value) {
    // Until its first row the recorded output had one value. The computed one had two.
    boolean overdue = !recorded.isKnown() && firstChange != NEVER && time - firstChange > late;
    recorded.come(time, value);
    if (overdue) {
      missed = true;
      differ(firstChange, time, EventSink.UNKNOWN);
    } else {
      compare(time);
    }
  }

  private void compare(long time) {
    if (departed || missed || !computed.isKnown() || !recorded.isKnown()) {
      return;
    }
    if (computed.isLike(recorded.value())) {
      since = NEVER;
      due = NOT_DUE;
      return;
    }
    long lag = Math.max(computed.left(recorded.value()), recorded.left(computed.value()));
    long from = Math.max(since == NEVER ? time : since, lag);
    if (from != since) {
      differ(from, from + late, recorded.value());
    }
  }

  private void differ(long from, long until, long instead) {
    since = from;
    due = until;
    valueRecorded = instead;
    valueComputed = computed.value();
  }
}
