package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.operator.Recency;

/** What follows a response: the obligations whose condition has become true and has to stay so. In the order of their responses. */
public abstract sealed class Stay permits StayFor, StayUntil {

  static final int TRIGGER = 0;
  static final int RESPONSE = 1;
  /** What it is worth when it has stayed so. */
  static final int WORTH = 2;
  static final int OWN = 3;

  private static final int MET = 0;
  private static final int NEAR = 1;
  private static final int ALREADY_SO = 2;

  SustainedJudge judge;
  LongQueue staying;

  /** Called once by the judge it belongs to. */
  final void serve(SustainedJudge served) {
    judge = served;
    staying = new LongQueue(served.cases.recordWidth(OWN));
  }

  /**
   * An obligation got its response; {@code from} holds it as the oldest, with its trigger's events from field {@code own} on.
   *
   * @param kind borderline for a response too near to its deadline, else null
   * @param wasSo whether the demand was so before the trigger already
   */
  final void begin(LongQueue from, int own, long triggered, long moment, Kind kind, boolean wasSo) {
    int place = staying.add();
    staying.set(place, TRIGGER, triggered);
    staying.set(place, RESPONSE, moment);
    staying.set(place, WORTH, kind != null ? NEAR : wasSo ? ALREADY_SO : MET);
    judge.cases.copyTrigger(from, 0, own, staying, place, OWN);
  }

  final long cancelAll() {
    long cancelled = judge.countable(staying);
    staying.clear();
    return cancelled;
  }

  final boolean isEmpty() {
    return staying.isEmpty();
  }

  /** Whether an obligation of the time from the rule's beginning on that had to become so has to stay so now. */
  final boolean isAsked() {
    for (int place = 0; place < staying.size(); place++) {
      if (staying.get(place, WORTH) != ALREADY_SO && !judge.isEarly(staying.get(place, TRIGGER))) {
        return true;
      }
    }
    return false;
  }

  /** The oldest obligation has stayed so up to its end. */
  final void stayed(long triggered, long moment, long deadline) {
    long worth = staying.get(0, WORTH);
    if (worth == ALREADY_SO) {
      judge.tally.alreadySo += judge.isEarly(triggered) ? 0 : 1;
    } else {
      judge.decide(worth == NEAR ? Kind.BORDERLINE : null, 0, staying, 0, OWN, triggered, moment, deadline);
    }
  }

  /** How long it has to stay so; null where a condition ends it. */
  abstract PossibleResponses.Span span();

  /** The condition that ends it; null where time does. */
  abstract BoolNode release();

  /** Called before the condition's recency takes in the present moment. */
  abstract void beforeFollowing(Recency recency, long moment);

  abstract void judge(int required, Recency recency, long moment);

  abstract long nextWake();

  abstract void finish(Recency recency, long last);
}
