package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.LastFalse;
import dev.pawl.engine.operator.LastMoments;
import dev.pawl.grammar.rules.model.Truth;

/**
 * {@code must P within D, and stay so}, or {@code must P, and stay so}: an obligation that has got its response goes on
 * to the {@link Stay}.
 */
public final class SustainedJudge extends ResponseJudge {

  private final BoolNode staying;
  private final LastMoments stays;
  private final Stay stay;
  /** When the condition was last true before it has been so without a break. */
  private long trueBefore = Moments.NEVER;

  /**
   * A judge.
   *
   * @param staying the demand as it has to stay so
   * @param missed what it is when the response does not come; at the trigger itself a response has no time and no
   *     margin
   * @param lastFalse when the demand was last false; null where the response has no time
   * @param stay what follows a response
   */
  public SustainedJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, BoolNode staying,
      Window window, Kind missed, LastFalse lastFalse, Stay stay) {
    super(rule, cases, conditions, required, window, missed, lastFalse);
    this.staying = staying;
    this.stays = staying == required ? recency : new LastMoments();
    this.stay = stay;
    stay.serve(this);
    judgePossible(new PossibleResponses(this, required, window, stay, !isTimed()));
  }

  @Override
  protected void connect() {
    super.connect();
    watch(required, true);
    if (!isTimed()) {
      watchBehind(window.order());
    }
    if (staying != required) {
      watch(staying, true);
    }
    if (stay.release() != null) {
      watch(stay.release(), true);
    }
  }

  @Override
  public boolean update(long moment) {
    awaitIfArises(moment);
    stay.beforeFollowing(stays, moment);
    recency.follow(required.value, moment);
    if (staying != required) {
      stays.follow(staying.value, moment);
    }
    trueBefore = required.value == Truth.T ? trueBefore : recency.last(Truth.T);
    open(moment);
    judgeOpened(moment);
    stay.judge(staying.value, stays, moment);
    close(moment);
    graph.wake(this, Math.min(Math.min(nextWake(), stay.nextWake()), judgePossible(moment)));
    watchWhile(!waiting.isEmpty() || late.isAwaited() || !stay.isEmpty() || mayHaveArisen());
    return false;
  }

  @Override
  void decideShown(long moment) {
    throw new AssertionError("what has to stay so does not show in an image");
  }

  @Override
  void answerOldest(long moment) {
    long triggered = waiting.get(0, 0);
    long mayOpen = mayOpen(0);
    long began = Math.max(mayOpen, recency.began());
    long came = came(began);
    boolean wasSo = wasSo(triggered);
    if (isTimed() && !wasSo && !isAside(triggered)) {
      margins.offerMoments(deadline(0) - came, came, triggered);
    }
    long released = stay.releasedBefore(began);
    if (recency.unknownSince(mayOpen)) {
      decideOldest(Kind.UNKNOWN, recency.cause(mayOpen), moment);
    } else if (trueBefore >= mayOpen) {
      decideOldest(Kind.BORDERLINE, 0, trueBefore);
    } else if (isTimed() && began > triggered && oldestIsContested()) {
      decideOldest(Kind.BORDERLINE, 0, triggered);
    } else if (released != Moments.NEVER) {
      decideOldest(Kind.BORDERLINE, 0, released);
    } else {
      boolean near = isNear(began) || !isTimed() && oldestIsContested();
      stay.begin(waiting, OWN, triggered, began, moment, near ? Kind.BORDERLINE : null, wasSo);
      waiting.removeFirst();
    }
  }

  @Override
  void noteDoubts(long moment) {
    if (!isTimed()) {
      noteDoubts(Truth.F, moment);
    }
    stay.noteDoubts(stays, moment);
  }

  @Override
  void cancelBefore(long moment) {
    super.cancelBefore(moment);
    stay.cancelBefore(moment);
  }

  @Override
  public void finish(long last) {
    super.finish(last);
    stay.finish(stays, last);
  }
}
