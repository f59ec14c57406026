package dev.pawl.engine.judge;

import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;

/**
 * Missed responses that may still come: how late the first of them is makes the margin, and each finding told is told
 * of it.
 */
final class LateResponses {

  private final Margins margins;
  private final CaseFile cases;
  private final LongQueue told = new LongQueue(2);
  private long deadline = Moments.NEVER;
  private long trigger;
  /** When a missed response last came. */
  private long came = Moments.NEVER;

  LateResponses(Margins margins, CaseFile cases) {
    this.margins = margins;
    this.cases = cases;
  }

  /** An obligation was missed. */
  void await(long triggered, long missedDeadline) {
    if (deadline == Moments.NEVER) {
      deadline = missedDeadline;
      trigger = triggered;
    }
  }

  /** Whether a missed response may still come. */
  boolean isAwaited() {
    return deadline != Moments.NEVER;
  }

  /**
   * The finding of one that was decided at a moment was told, so that the listener wants to know when the response
   * comes.
   */
  void told(long triggered, long missedDeadline, long decided) {
    if (came > decided) {
      return;
    }
    int place = told.add();
    told.set(place, 0, triggered);
    told.set(place, 1, missedDeadline);
  }

  /** The response has come. */
  void come(long moment) {
    if (deadline == Moments.NEVER) {
      return;
    }
    margins.offerMoments(deadline - moment, moment, trigger);
    deadline = Moments.NEVER;
    came = moment;
    while (!told.isEmpty()) {
      cases.lateResponse(told.get(0, 0), told.get(0, 1), moment);
      told.removeFirst();
    }
  }

  /** The trace has ended without it. */
  void neverCome(long last) {
    if (deadline != Moments.NEVER) {
      margins.offerAtMost(deadline - last, last, trigger);
    }
  }
}
