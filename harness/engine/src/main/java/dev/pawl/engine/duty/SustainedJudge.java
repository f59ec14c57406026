package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.operator.LastFalse;
import dev.pawl.grammar.rules.model.Truth;

/** {@code must P within D, and stay so}, or {@code must P, and stay so}: an obligation that has got its response goes on to the {@link Stay}. */
public final class SustainedJudge extends ResponseJudge {

  private final Stay stay;

  /**
   * A judge.
   *
   * @param missed what it is when the response does not come; at the trigger itself a response has no time and no margin
   * @param lastFalse when the demand was last false; null where the response has no time
   * @param stay what follows a response
   */
  public SustainedJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, Window window, Kind missed,
      LastFalse lastFalse, Stay stay) {
    super(rule, cases, conditions, required, window, missed, lastFalse);
    this.stay = stay;
    stay.serve(this);
    judgePossible(new PossibleResponses(this, required, window, stay.span(), stay.release()));
  }

  @Override
  protected void connect() {
    super.connect();
    watch(required, true);
    if (stay.release() != null) {
      watch(stay.release(), true);
    }
  }

  @Override
  public boolean update(long moment) {
    awaitIfArises(moment);
    stay.beforeFollowing(recency, moment);
    recency.follow(required.value, moment);
    open(moment);
    if (required.value == Truth.T) {
      respond(moment);
    }
    stay.judge(required.value, recency, moment);
    close(moment);
    graph.wake(this, Math.min(Math.min(nextWake(), stay.nextWake()), judgePossible(moment)));
    watchWhile(!waiting.isEmpty() || late.isAwaited() || !stay.isEmpty() || mayHaveArisen());
    return false;
  }

  @Override
  void answerOldest(long moment) {
    long triggered = waiting.get(0, 0);
    boolean wasSo = wasSo(triggered);
    if (isTimed() && !wasSo && !isEarly(triggered)) {
      margins.offerMoments(deadline(0) - moment, moment, triggered);
    }
    if (recency.unknownSince(opening(0))) {
      decideOldest(Kind.UNKNOWN, recency.cause(opening(0)), moment);
    } else {
      stay.begin(waiting, OWN, triggered, moment, isNearDeadline(moment) ? Kind.BORDERLINE : null, wasSo);
      waiting.removeFirst();
    }
  }

  @Override
  long cancelAll() {
    return super.cancelAll() + stay.cancelAll();
  }

  @Override
  public void finish(long last) {
    super.finish(last);
    stay.finish(recency, last);
  }
}
