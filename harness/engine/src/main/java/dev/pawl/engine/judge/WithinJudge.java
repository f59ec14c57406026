package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.operator.LastFalse;

/** {@code must P after D1 within D2}: the first P in the window answers all obligations whose windows are open. */
public final class WithinJudge extends ResponseJudge {

  /** A judge. */
  public WithinJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, Window window,
      LastFalse lastFalse) {
    super(rule, cases, conditions, required, window, Kind.NO_RESPONSE, lastFalse);
    judgePossible(new PossibleResponses(this, required, window, null, false));
  }

  @Override
  protected void connect() {
    super.connect();
    watch(required, window.opensVaguely());
  }

  @Override
  public boolean update(long moment) {
    awaitIfArises(moment);
    recency.follow(required.value, moment);
    open(moment);
    judgeOpened(moment);
    close(moment);
    graph.wake(this, Math.min(nextWake(), judgePossible(moment)));
    watchWhile(!waiting.isEmpty() || late.isAwaited() || mayHaveArisen());
    return false;
  }

  @Override
  void decideShown(long moment) {
    long deadline = deadlineOf(moment);
    if (!isAside(moment)) {
      margins.offerMoments(deadline - moment, moment, moment);
    }
    decide(isNear(moment, deadline) ? Kind.BORDERLINE : null, 0, shown, 0, OWN, moment, moment, deadline);
  }

  @Override
  void answerOldest(long moment) {
    long triggered = waiting.get(0, 0);
    boolean near = isNear(recency.began());
    long came = came(recency.began());
    boolean wasSo = wasSo(triggered);
    if (!wasSo && !isAside(triggered)) {
      margins.offerMoments(deadline(0) - came, came, triggered);
    }
    if (wasSo && !near) {
      countAlreadySo(waiting, 0, OWN, triggered);
      waiting.removeFirst();
    } else {
      decideOldest(near ? Kind.BORDERLINE : null, 0, came);
    }
  }
}
