package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.operator.LastFalse;
import dev.pawl.grammar.rules.model.Truth;

/** What the judges share that want a response in the window: what becomes of obligations that do not get one. */
abstract class ResponseJudge extends WindowJudge {

  final LateResponses late;
  private final Kind missed;
  private final LastFalse lastFalse;

  /**
   * A judge.
   *
   * @param missed what it is when the response does not come; one that has to come in time may still come late
   * @param lastFalse when the demand was last false; null where the response has no time
   */
  ResponseJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, Window window, Kind missed,
      LastFalse lastFalse) {
    super(rule, cases, conditions, required, window, "s");
    this.missed = missed;
    this.lastFalse = lastFalse;
    this.late = new LateResponses(margins, cases);
  }

  /** Whether the response has a time, and so a margin: at the trigger itself it has none. */
  final boolean isTimed() {
    return missed == Kind.NO_RESPONSE;
  }

  /**
   * Whether the response, which began at a moment, came too near to the deadline of the oldest obligation, and not at
   * its trigger already.
   */
  final boolean isNear(long began) {
    boolean soAtTrigger = isTimed() && window.opens() == 0 && began <= waiting.get(0, 0) && oldestWasSoBefore();
    return isNearDeadline(began) && !soAtTrigger;
  }

  /**
   * Whether the demand of an obligation that has got its response was so before its trigger already, as far as it was
   * known.
   */
  final boolean wasSo(long triggered) {
    return lastFalse != null && lastFalse.lastFalse() < triggered - Math.max(window.slack().longer(), 1);
  }

  @Override
  final boolean heedsStanding() {
    return isTimed();
  }

  @Override
  final int deciding() {
    return Truth.T;
  }

  @Override
  final void judgeOpened(long moment) {
    if (required.value == Truth.T) {
      respond(moment);
    }
  }

  /** The response has come: all obligations whose windows are open have got it. */
  private void respond(long moment) {
    late.come(moment);
    for (; opened > 0; opened--) {
      if (oldestStood() && isNear(recency.began())) {
        decideOldest(Kind.BORDERLINE, 0, came(recency.began()));
      } else if (oldestStood()) {
        waiting.removeFirst();
      } else {
        answerOldest(moment);
      }
    }
  }

  /** The oldest obligation, whose window is open, has got its response. */
  abstract void answerOldest(long moment);

  @Override
  final void closeOldest(long moment) {
    opened--;
    long mayOpen = mayOpen(0);
    if (recency.since(Truth.T, mayOpen)) {
      decideOldest(Kind.BORDERLINE, 0, recency.last(Truth.T));
      return;
    }
    if (recency.unknownSince(mayOpen)) {
      decideOldest(Kind.UNKNOWN, recency.cause(mayOpen), moment);
      return;
    }
    if (oldestIsContested()) {
      decideOldest(Kind.BORDERLINE, 0, waiting.get(0, 0));
      return;
    }
    long triggered = waiting.get(0, 0);
    long deadline = deadline(0);
    if (decideOldest(missed, 0, deadline) && isTimed()) {
      late.await(triggered, deadline);
    }
  }

  @Override
  final void toldOf(Kind kind, long triggered, long deadline, long decided) {
    if (kind == Kind.NO_RESPONSE) {
      late.told(triggered, deadline, decided);
    }
  }

  @Override
  public void finish(long last) {
    super.finish(last);
    late.neverCome(last);
  }
}
