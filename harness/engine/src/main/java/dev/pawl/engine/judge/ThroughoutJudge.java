package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.operator.Distance;
import dev.pawl.grammar.rules.model.Truth;

/**
 * {@code must P after D1 throughout D2}: P may not become false in the window, and where it does all obligations whose
 * windows are open are missed.
 */
public final class ThroughoutJudge extends WindowJudge {

  private final Distance distance;
  private final RunningMinimum minimum = new RunningMinimum();

  /**
   * A judge.
   *
   * @param distance the distance of {@code required} to breaking in {@code marginUnit}; null where it has none
   */
  public ThroughoutJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, Window window,
      Distance distance, String marginUnit) {
    super(rule, cases, conditions, required, window, marginUnit);
    this.distance = distance;
    judgePossible(new PossibleStates(this, required, window.ofPossible()));
  }

  @Override
  protected void connect() {
    super.connect();
    watch(required, true);
    watchBehind(window.order());
    if (distance != null) {
      distance.numbers().forEach(number -> watch(number, true));
    }
  }

  @Override
  public boolean update(long moment) {
    awaitIfArises(moment);
    recency.follow(required.value, moment);
    followDistance(moment);
    open(moment);
    judgeOpened(moment);
    close(moment);
    graph.wake(this, Math.min(nextWake(), judgePossible(moment)));
    watchWhile(!waiting.isEmpty() || mayHaveArisen());
    return false;
  }

  @Override
  int deciding() {
    return Truth.F;
  }

  @Override
  void decideShown(long moment) {
    long deadline = deadlineOf(moment);
    boolean near = isContested(required, window.order(), moment) && isNear(moment, deadline);
    if (distance == null && !isAside(moment)) {
      margins.offerMoments(moment - deadline, moment, moment);
    }
    decide(near ? Kind.BORDERLINE : Kind.NOT_THROUGHOUT, 0, shown, 0, OWN, moment, moment, deadline);
  }

  @Override
  void judgeOpened(long moment) {
    for (; required.value == Truth.F && opened > 0; opened--) {
      long fell = came(recency.began());
      offer(fell);
      boolean falseAtTrigger = window.opens() == 0 && fell == opening(0) && !oldestIsContested();
      decideOldest(falseAtTrigger || !isNearDeadline(recency.began()) ? Kind.NOT_THROUGHOUT : Kind.BORDERLINE, 0, fell);
    }
  }

  @Override
  void noteDoubts(long moment) {
    noteDoubts(Truth.F, moment);
  }

  private void followDistance(long moment) {
    if (distance != null) {
      minimum.follow(distance.now(), moment);
      minimum.forgetBefore(waiting.isEmpty() ? moment : Math.min(moment, opening(0)));
    }
  }

  /**
   * How far the condition was from breaking in the window of the oldest obligation, or how far it is from the deadline
   * that it broke at.
   */
  private void offer(long moment) {
    long triggered = waiting.get(0, 0);
    if (isAside(triggered)) {
      return;
    }
    if (distance == null) {
      margins.offerMoments(moment - deadline(0), moment, triggered);
    } else if (minimum.find(opening(0))) {
      margins.offer(minimum.least(), minimum.place(), triggered);
    }
  }

  @Override
  void closeOldest(long moment) {
    if (distance != null) {
      offer(moment);
    }
    opened--;
    long mayOpen = mayOpen(0);
    if (recency.since(Truth.F, mayOpen)) {
      decideOldest(Kind.BORDERLINE, 0, recency.last(Truth.F));
    } else if (oldestIsContested() && !recency.unknownSince(mayOpen)) {
      decideOldest(Kind.BORDERLINE, 0, mayOpen);
    } else {
      decideOldest(recency.unknownSince(mayOpen) ? Kind.UNKNOWN : null, recency.cause(mayOpen), moment);
    }
  }

  @Override
  void leaveOldestOpen(long last) {
    if (distance != null) {
      offer(last);
    }
    super.leaveOldestOpen(last);
  }

  @Override
  public void finish(long last) {
    followDistance(last);
    super.finish(last);
  }
}
