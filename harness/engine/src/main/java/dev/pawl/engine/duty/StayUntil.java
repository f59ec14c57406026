package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.Recency;
import dev.pawl.grammar.rules.model.Truth;

/** {@code and stay so until q}. Every obligation that stays ends at the same moment, whichever comes first: q, or the fall. */
public final class StayUntil extends Stay {

  private final BoolNode release;
  private final Recency releases = new Recency();
  private long unknownBefore = Moments.NEVER;
  private long borderlineBefore = Moments.NEVER;

  public StayUntil(BoolNode release) {
    this.release = release;
  }

  @Override
  PossibleResponses.Span span() {
    return null;
  }

  @Override
  BoolNode release() {
    return release;
  }

  /** The condition is not asked for at the moment of release, so what it was up to the moment before is noted here. */
  @Override
  void beforeFollowing(Recency recency, long moment) {
    unknownBefore = recency.lastBefore(Truth.U, moment);
    borderlineBefore = recency.lastBefore(Truth.B, moment);
  }

  @Override
  void judge(int required, Recency recency, long moment) {
    releases.follow(release.value, moment);
    if (release.value == Truth.T) {
      for (; !staying.isEmpty(); staying.removeFirst()) {
        released(moment, unknownBefore, borderlineBefore);
      }
    } else if (required == Truth.F) {
      for (; !staying.isEmpty(); staying.removeFirst()) {
        fell(moment);
      }
    }
  }

  private void released(long moment, long lastUnknown, long lastBorderline) {
    long triggered = staying.get(0, TRIGGER);
    long response = staying.get(0, RESPONSE);
    if (lastUnknown >= response || lastBorderline >= response) {
      judge.decide(Kind.UNKNOWN, lastUnknown >= response ? Truth.U : Truth.B, staying, 0, OWN, triggered, moment, moment);
    } else {
      stayed(triggered, moment, moment);
    }
  }

  private void fell(long moment) {
    long triggered = staying.get(0, TRIGGER);
    long response = staying.get(0, RESPONSE);
    boolean unknown = releases.unknownSince(response);
    judge.decide(unknown ? Kind.UNKNOWN : Kind.NOT_SUSTAINED, releases.cause(response), staying, 0, OWN, triggered, moment, moment);
  }

  @Override
  long nextWake() {
    return Moments.FOREVER;
  }

  @Override
  void finish(Recency recency, long last) {
    for (; !staying.isEmpty(); staying.removeFirst()) {
      released(last, recency.last(Truth.U), recency.last(Truth.B));
    }
  }
}
