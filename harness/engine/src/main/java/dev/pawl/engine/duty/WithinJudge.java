package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.grammar.rules.model.Truth;

/** {@code must P after D1 within D2}: the first P in the window answers all obligations whose windows are open. */
public final class WithinJudge extends WindowJudge {

  private final LateResponses late;

  /** A judge. */
  public WithinJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, Window window) {
    super(rule, cases, conditions, required, window, "s");
    this.late = new LateResponses(margins, cases);
  }

  @Override
  protected void connect() {
    super.connect();
    watch(required, false);
  }

  @Override
  public boolean update(long moment) {
    if (arises(moment)) {
      arise(moment);
    }
    follow(required.value, moment);
    open(moment);
    if (required.value == Truth.T) {
      late.come(moment);
      for (; opened > 0; opened--) {
        answer(moment);
      }
    }
    while (opened > 0 && lastMoment(0) <= moment) {
      closeUnanswered(Kind.NO_RESPONSE, late, moment);
    }
    graph.wake(this, nextWake());
    watchWhile(!waiting.isEmpty() || late.isAwaited(), moment);
    return false;
  }

  private void answer(long moment) {
    long triggered = waiting.get(0, 0);
    long deadline = deadline(0);
    margins.offerMoments(deadline - moment, moment, triggered);
    decide(isNearDeadline(moment) ? Kind.BORDERLINE : null, 0, waiting, 0, OWN, triggered, moment, deadline);
    waiting.removeFirst();
  }

  @Override
  void toldOf(Kind kind, long triggered, long deadline) {
    if (kind == Kind.NO_RESPONSE) {
      late.told(triggered, deadline);
    }
  }

  @Override
  public void finish(long last) {
    while (!waiting.isEmpty() && deadline(0) <= last) {
      closeUnanswered(Kind.NO_RESPONSE, late, last);
    }
    while (!waiting.isEmpty()) {
      decideOldest(Kind.OPEN, 0, last);
    }
    late.neverCome(last);
  }
}
