package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.LastFalse;
import dev.pawl.engine.operator.LastMoments;
import dev.pawl.grammar.rules.model.Truth;

/**
 * {@code and stay so until q}. Every obligation that stays ends at the same moment, whichever comes first: q, or the
 * fall. Where times are off it then waits a little for the other one, to see whether the order is beyond doubt.
 */
public final class StayUntil extends Stay {

  private final BoolNode release;
  /** When it was last so: when its negation was last false. Null where times are exact. */
  private final LastFalse lastReleased;
  private final boolean scattered;
  private final long slack;
  private final LastMoments releases = new LastMoments();
  private LongQueue released;
  private LongQueue fallen;
  private long unknownBefore = Moments.NEVER;
  private long borderlineBefore = Moments.NEVER;

  /**
   * What stays until a release.
   *
   * @param lastReleased when the release's negation was last false; null where times are exact
   * @param scattered whether the values of one instant are no image
   * @param slack how near to its end something can be, in moments
   */
  public StayUntil(BoolNode release, LastFalse lastReleased, boolean scattered, long slack) {
    this.release = release;
    this.scattered = scattered;
    this.lastReleased = lastReleased;
    this.slack = slack;
  }

  @Override
  void serve(SustainedJudge served) {
    super.serve(served);
    released = new LongQueue(served.cases.recordWidth(OWN));
    fallen = new LongQueue(served.cases.recordWidth(OWN));
  }

  @Override
  long span() {
    return Moments.FOREVER;
  }

  @Override
  BoolNode release() {
    return release;
  }

  @Override
  long slack() {
    return slack;
  }

  @Override
  boolean isEmpty() {
    return super.isEmpty() && released.isEmpty() && fallen.isEmpty();
  }

  @Override
  void noteDoubts(LastMoments recency, long moment) {
    super.noteDoubts(recency, moment);
    noteDoubts(released, recency, moment);
  }

  @Override
  void cancelBefore(long moment) {
    super.cancelBefore(moment);
    judge.drop(released, OWN, moment);
    judge.drop(fallen, OWN, moment);
  }

  /** The condition is not asked for at the moment of release, so what it was up to the moment before is noted here. */
  @Override
  void beforeFollowing(LastMoments recency, long moment) {
    unknownBefore = recency.lastBefore(Truth.U, moment);
    borderlineBefore = recency.lastBefore(Truth.B, moment);
    releases.follow(release.value, moment);
  }

  @Override
  long releasedBefore(long from) {
    return release.value != Truth.T && releases.since(Truth.T, from) ? releases.last(Truth.T) : Moments.NEVER;
  }

  @Override
  boolean isScattered() {
    return scattered;
  }

  @Override
  boolean mayHaveEnded(long response) {
    if (lastReleased == null || release.value == Truth.T) {
      return false;
    }
    long released = lastReleased.lastFalse();
    return released > response - slack && released < (scattered ? response : response - 1);
  }

  @Override
  void judge(int required, LastMoments recency, long moment) {
    if (required == Truth.F) {
      endNear(released, moment);
    }
    if (release.value == Truth.T) {
      endNear(fallen, moment);
      for (; !staying.isEmpty(); staying.removeFirst()) {
        boolean justBegun = staying.get(0, FOLLOWED) == moment;
        long since = justBegun ? Math.max(staying.get(0, RESPONSE), releases.began()) : moment;
        if (slack == 0 || since <= staying.get(0, RESPONSE)
            || since == moment && !scattered && (required == Truth.F || fallsNow(moment))) {
          stayed(staying, moment, unknownBefore, borderlineBefore);
        } else if (required == Truth.F) {
          decide(staying, Kind.BORDERLINE, 0, moment, moment);
        } else {
          move(released, since);
        }
      }
    } else if (required == Truth.F) {
      for (; !staying.isEmpty(); staying.removeFirst()) {
        if (slack == 0) {
          fell(staying, moment, moment);
        } else {
          move(fallen, moment);
        }
      }
    }
    for (; !released.isEmpty() && lastMoment(released) <= moment; released.removeFirst()) {
      stayed(released, moment, recency.last(Truth.U), recency.last(Truth.B));
    }
    for (; !fallen.isEmpty() && lastMoment(fallen) <= moment; fallen.removeFirst()) {
      fell(fallen, fallen.get(0, FOLLOWED), moment);
    }
  }

  /** Whether the demand seems to fall at a moment, if only briefly. */
  private boolean fallsNow(long moment) {
    return judge.required.seen().value == Truth.F && judge.required.seen().since() == moment;
  }

  /** What ended these comes too near to the other thing that may have. */
  private void endNear(LongQueue ended, long moment) {
    for (; !ended.isEmpty(); ended.removeFirst()) {
      decide(ended, Kind.BORDERLINE, 0, moment, moment);
    }
  }

  private void move(LongQueue to, long moment) {
    int place = to.add();
    for (int field = TRIGGER; field < OWN; field++) {
      to.set(place, field, staying.get(0, field));
    }
    to.set(place, FOLLOWED, moment);
    judge.cases.copyTrigger(staying, 0, OWN, to, place, OWN);
  }

  private void stayed(LongQueue queue, long moment, long lastUnknown, long lastBorderline) {
    long response = queue.get(0, RESPONSE);
    if (lastUnknown >= response || lastBorderline >= response) {
      decide(queue, Kind.UNKNOWN, lastUnknown >= response ? Truth.U : Truth.B, moment, moment);
    } else {
      stayed(queue, moment, moment);
    }
  }

  private void fell(LongQueue queue, long fall, long moment) {
    long response = queue.get(0, RESPONSE);
    if (releases.unknownSince(response)) {
      decide(queue, Kind.UNKNOWN, releases.cause(response), moment, moment);
    } else {
      boolean sure = queue.get(0, ENDED) == 0;
      decide(queue, sure ? Kind.NOT_SUSTAINED : Kind.BORDERLINE, 0, fall, fall);
    }
  }

  private long lastMoment(LongQueue ended) {
    return Slack.closes(ended.get(0, FOLLOWED), slack);
  }

  @Override
  long nextWake() {
    long next = released.isEmpty() ? Moments.FOREVER : lastMoment(released);
    return fallen.isEmpty() ? next : Math.min(next, lastMoment(fallen));
  }

  @Override
  void finish(LastMoments recency, long last) {
    for (LongQueue queue : new LongQueue[] {released, staying}) {
      for (; !queue.isEmpty(); queue.removeFirst()) {
        stayed(queue, last, recency.last(Truth.U), recency.last(Truth.B));
      }
    }
    for (; !fallen.isEmpty(); fallen.removeFirst()) {
      fell(fallen, fallen.get(0, FOLLOWED), last);
    }
  }
}
