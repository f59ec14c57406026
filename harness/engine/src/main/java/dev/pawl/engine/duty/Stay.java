package dev.pawl.engine.duty;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.operator.Recency;

/** What follows a response: the obligations whose condition has become true and has to stay so. In the order of their responses. */
public abstract sealed class Stay permits StayFor, StayUntil {

  static final int TRIGGER = 0;
  static final int RESPONSE = 1;
  static final int NEAR = 2;
  static final int OWN = 3;

  SustainedJudge judge;
  LongQueue staying;

  /** Called once by the judge it belongs to. */
  final void serve(SustainedJudge served) {
    judge = served;
    staying = new LongQueue(served.cases.recordWidth(OWN));
  }

  /** An obligation got its response; {@code from} holds it as the oldest, with its trigger's events from field {@code own} on. */
  final void begin(LongQueue from, int own, long triggered, long moment, boolean near) {
    int place = staying.add();
    staying.set(place, TRIGGER, triggered);
    staying.set(place, RESPONSE, moment);
    staying.set(place, NEAR, near ? 1 : 0);
    judge.cases.copyTrigger(from, 0, own, staying, place, OWN);
  }

  final long cancelAll() {
    long cancelled = staying.size();
    staying.clear();
    return cancelled;
  }

  final boolean isEmpty() {
    return staying.isEmpty();
  }

  final boolean near() {
    return staying.get(0, NEAR) == 1;
  }

  /** The condition that ends it; null where time does. */
  abstract BoolNode release();

  /** Called before the condition's recency takes in the present moment. */
  abstract void beforeFollowing(Recency recency, long moment);

  abstract void judge(int required, Recency recency, long moment);

  abstract long nextWake();

  abstract void finish(Recency recency, long last);
}
