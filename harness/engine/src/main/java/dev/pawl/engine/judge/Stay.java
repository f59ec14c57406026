package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.LastMoments;
import dev.pawl.grammar.rules.model.Truth;

/**
 * What follows a response: the obligations whose condition has become true and has to stay so. In the order of their
 * responses.
 */
public abstract sealed class Stay permits StayFor, StayUntil {

  static final int TRIGGER = 0;
  /** Since when its response may have come. */
  static final int RESPONSE = 1;
  /** What it is worth when it has stayed so. */
  static final int WORTH = 2;
  /** Since when it has been followed; once something has ended that, when it did. */
  static final int FOLLOWED = 3;
  /** Whether what ends it may have been there when the response came. */
  static final int ENDED = 4;
  static final int OWN = 5;

  private static final int MET = 0;
  private static final int NEAR = 1;
  private static final int ALREADY_SO = 2;

  SustainedJudge judge;
  LongQueue staying;

  /** Called once by the judge it belongs to. */
  void serve(SustainedJudge served) {
    judge = served;
    staying = new LongQueue(served.cases.recordWidth(OWN));
  }

  /**
   * An obligation got its response; {@code from} holds it as the oldest, with its trigger's events from field
   * {@code own} on.
   *
   * @param response since when it may have come
   * @param moment since when it has surely come
   * @param kind borderline for a response too near to its deadline, else null
   * @param wasSo whether the demand was so before the trigger already
   */
  final void begin(LongQueue from, int own, long triggered, long response, long moment, Kind kind, boolean wasSo) {
    int place = staying.add();
    staying.set(place, TRIGGER, triggered);
    staying.set(place, RESPONSE, response);
    staying.set(place, FOLLOWED, moment);
    staying.set(place, ENDED, mayHaveEnded(response) ? 1 : 0);
    staying.set(place, WORTH, kind != null ? NEAR : wasSo ? ALREADY_SO : MET);
    judge.cases.copyTrigger(from, 0, own, staying, place, OWN);
  }

  void cancelBefore(long moment) {
    judge.drop(staying, OWN, moment);
  }

  void noteDoubts(LastMoments recency, long moment) {
    noteDoubts(staying, recency, moment);
  }

  /** Says which obligations of a queue may have been missed before a moment. */
  final void noteDoubts(LongQueue queue, LastMoments recency, long moment) {
    for (int place = 0; place < queue.size(); place++) {
      int cause = recency.causeBefore(queue.get(place, RESPONSE), moment);
      if (cause != Truth.F || queue.get(place, WORTH) == NEAR) {
        judge.doubt(queue.get(place, TRIGGER), cause == Truth.U ? Truth.U : Truth.B);
      }
    }
  }

  boolean isEmpty() {
    return staying.isEmpty();
  }

  /** Whether an obligation of the time from the rule's beginning on that had to become so has to stay so now. */
  final boolean isAsked() {
    for (int place = 0; place < staying.size(); place++) {
      if (staying.get(place, WORTH) != ALREADY_SO && !judge.isAside(staying.get(place, TRIGGER))) {
        return true;
      }
    }
    return false;
  }

  /** The oldest obligation of a queue has stayed so up to its end. */
  final void stayed(LongQueue queue, long moment, long deadline) {
    long triggered = queue.get(0, TRIGGER);
    long worth = queue.get(0, WORTH);
    if (worth == ALREADY_SO) {
      judge.countAlreadySo(queue, 0, OWN, triggered);
    } else {
      decide(queue, worth == NEAR ? Kind.BORDERLINE : null, 0, moment, deadline);
    }
  }

  /** Decides the oldest obligation of a queue. */
  final void decide(LongQueue queue, Kind kind, int cause, long moment, long deadline) {
    judge.decide(kind, cause, queue, 0, OWN, queue.get(0, TRIGGER), moment, deadline);
  }

  /** How long it has to stay so; {@link Moments#FOREVER} where a condition ends it. */
  abstract long span();

  /** The condition that ends it; null where time does. */
  abstract BoolNode release();

  /** How near to its end, in moments, something can be. */
  abstract long slack();

  /** Whether what ends it went so soon before the response that it may have been there still. */
  boolean mayHaveEnded(long response) {
    return false;
  }

  /** When what ends it was last so since a moment, if it is not so now; {@link Moments#NEVER} for never. */
  long releasedBefore(long from) {
    return Moments.NEVER;
  }

  /** Called before the condition's recency takes in the present moment, and before anything begins to stay. */
  abstract void beforeFollowing(LastMoments recency, long moment);

  abstract void judge(int required, LastMoments recency, long moment);

  abstract long nextWake();

  abstract void finish(LastMoments recency, long last);
}
