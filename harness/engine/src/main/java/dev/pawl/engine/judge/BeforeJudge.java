package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.LastMoments;
import dev.pawl.grammar.rules.model.Truth;

/**
 * {@code must P before Q}. An obligation waits for the first of the two; with a resolution it then waits a little for
 * the other, to see whether the order is beyond doubt.
 */
public final class BeforeJudge extends TriggeredJudge {

  private static final int TRIGGER = 0;
  private static final int SEEN = 1;
  /** Whether what was not so at the trigger may have been when it happened: neither, P, Q or both. */
  private static final int CONTESTED = 2;
  private static final int OWN = 3;
  private static final int P = 1;
  private static final int Q = 2;

  private final BoolNode required;
  private final BoolNode limit;
  private final long slack;
  private final Order order;
  private final LastMoments requiredRecency = new LastMoments();
  private final LastMoments limitRecency = new LastMoments();
  private final LongQueue waiting;
  /** Had P at the trigger, which may prove to have come or gone just then. */
  private final LongQueue standing;
  /** Got P first, Q may still come too close after it. */
  private final LongQueue responded;
  /** Got Q first, P may still come close after it. */
  private final LongQueue limited;
  private final LateResponses late;
  /** The latest response that came first and the trigger it answered; Q makes its margin. */
  private long lastMet = Moments.NEVER;
  private long lastMetTrigger;
  private long limitUnknownBefore = Moments.NEVER;
  private long limitBorderlineBefore = Moments.NEVER;

  /**
   * A judge.
   *
   * @param slack how near to each other the two have to be for their order to be open, in moments
   * @param order how near the trigger the order of either is open
   */
  public BeforeJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, BoolNode limit, long slack,
      Order order) {
    super(rule, cases, "s", conditions);
    this.required = required;
    this.limit = limit;
    this.slack = slack;
    this.order = order;
    this.waiting = new LongQueue(cases.recordWidth(OWN));
    this.standing = new LongQueue(cases.recordWidth(OWN));
    this.responded = new LongQueue(cases.recordWidth(OWN));
    this.limited = new LongQueue(cases.recordWidth(OWN));
    this.late = new LateResponses(margins, cases);
    judgePossible(new PossibleOrders(this, required, limit, slack));
  }

  @Override
  protected void connect() {
    super.connect();
    watch(required, order.surely() > 0);
    watch(limit, false);
  }

  @Override
  public boolean update(long moment) {
    if (arises(moment)) {
      arise(moment);
    }
    judge(moment);
    watchWhile(isBusy());
    return false;
  }

  private boolean isBusy() {
    return !waiting.isEmpty() || !standing.isEmpty() || !responded.isEmpty() || !limited.isEmpty() || late.isAwaited()
        || lastMet != Moments.NEVER || mayHaveArisen();
  }

  private void arise(long moment) {
    int place = waiting.add();
    waiting.set(place, TRIGGER, moment);
    waiting.set(place, CONTESTED, (mayHaveBeen(required, moment) ? P : 0) | (mayHaveBeen(limit, moment) ? Q : 0));
    cases.writeTrigger(waiting, place, OWN);
  }

  private boolean mayHaveBeen(BoolNode condition, long moment) {
    return condition.value != Truth.T && isContested(condition, order, moment);
  }

  private static boolean mayHaveBeen(LongQueue queue, int condition) {
    return (queue.get(0, CONTESTED) & condition) != 0;
  }

  @Override
  void cancelBefore(long moment) {
    drop(waiting, OWN, moment);
    drop(standing, OWN, moment);
    drop(responded, OWN, moment);
    drop(limited, OWN, moment);
  }

  @Override
  void noteDoubts(long moment) {
    noteDoubts(waiting, moment);
    noteDoubts(responded, moment);
  }

  private void noteDoubts(LongQueue queue, long moment) {
    for (int place = 0; place < queue.size(); place++) {
      long triggered = queue.get(place, TRIGGER);
      int cause = limitRecency.causeBefore(triggered + 1, moment);
      if (cause != Truth.F || (queue.get(place, CONTESTED) & Q) != 0) {
        doubt(triggered, cause == Truth.U ? Truth.U : Truth.B);
      }
    }
  }

  private void judge(long moment) {
    limitUnknownBefore = limitRecency.lastBefore(Truth.U, moment);
    limitBorderlineBefore = limitRecency.lastBefore(Truth.B, moment);
    requiredRecency.follow(required.value, moment);
    limitRecency.follow(limit.value, moment);
    boolean limitNow = limit.value == Truth.T;
    if (limitNow) {
      offerLastMet(moment);
    }
    if (required.value == Truth.T) {
      responseCame(moment, limitNow);
    }
    if (limitNow) {
      limitCame(moment);
    }
    while (!standing.isEmpty() && standing.get(0, TRIGGER) + order.surely() <= moment) {
      endStanding();
    }
    while (!responded.isEmpty() && lastMoment(responded) <= moment) {
      endResponded(moment);
    }
    while (!limited.isEmpty() && lastMoment(limited) <= moment) {
      endLimited(moment);
    }
    boolean standsWithoutLimit = !standing.isEmpty() && standing.get(standing.size() - 1, SEEN) == Moments.NEVER;
    boolean justArisen = limitNow && (!waiting.isEmpty() || standsWithoutLimit || !responded.isEmpty()
        || lastMet == moment);
    if (justArisen) {
      comeBack();
    }
    long standsUntil = standing.isEmpty() ? Moments.FOREVER : Moments.later(standing.get(0, TRIGGER), order.surely());
    graph.wake(this, Math.min(Math.min(Math.min(wake(responded), wake(limited)), standsUntil), judgePossible(moment)));
  }

  private void responseCame(long moment, boolean limitNow) {
    late.come(moment);
    for (; !limited.isEmpty(); limited.removeFirst()) {
      long deadline = limited.get(0, SEEN);
      offer(deadline - moment, moment, limited.get(0, TRIGGER));
      decide(Kind.BORDERLINE, 0, limited, 0, OWN, limited.get(0, TRIGGER), moment, deadline);
    }
    for (; !waiting.isEmpty(); waiting.removeFirst()) {
      long triggered = waiting.get(0, TRIGGER);
      if (triggered == moment && !isContested(required, order, moment)) {
        standOrMet(triggered, moment, shows(required, order, moment));
      } else if (slack == 0 || limitNow && triggered < moment) {
        together(triggered, moment, limitNow);
      } else {
        move(waiting, responded, moment);
      }
    }
  }

  private void standOrMet(long triggered, long moment, boolean isShown) {
    if (order.surely() == 0 || isShown) {
      met(waiting, triggered, moment, moment);
    } else {
      move(waiting, standing, Moments.NEVER);
    }
  }

  /** Decides the oldest of those that had P at their trigger. */
  private void endStanding() {
    long triggered = standing.get(0, TRIGGER);
    long limitSeen = standing.get(0, SEEN);
    if (limitSeen == Moments.NEVER) {
      remember(false, triggered, triggered);
    } else {
      offer(limitSeen - triggered, limitSeen, triggered);
    }
    decide(hasFallenSince(triggered) ? Kind.BORDERLINE : null, 0, standing, 0, OWN, triggered, triggered, triggered);
    standing.removeFirst();
  }

  /** P came, and either its order with Q is exact, or Q came at the same moment. */
  private void together(long triggered, long moment, boolean limitNow) {
    if (limitNow) {
      offer(0, moment, triggered);
    }
    if (slack > 0) {
      decide(Kind.BORDERLINE, 0, waiting, 0, OWN, triggered, moment, moment);
    } else if (limitUnknownBefore > triggered || limitBorderlineBefore > triggered) {
      remember(limitNow, moment, triggered);
      int cause = limitUnknownBefore > triggered ? Truth.U : Truth.B;
      decide(Kind.UNKNOWN, cause, waiting, 0, OWN, triggered, moment, moment);
    } else {
      remember(limitNow, moment, triggered);
      decide(null, 0, waiting, 0, OWN, triggered, moment, moment);
    }
  }

  private void remember(boolean limitNow, long moment, long triggered) {
    if (!limitNow && moment > lastMet && !isAside(triggered)) {
      lastMet = moment;
      lastMetTrigger = triggered;
    }
  }

  private void met(LongQueue queue, long triggered, long response, long moment) {
    remember(false, response, triggered);
    decide(null, 0, queue, 0, OWN, triggered, moment, moment);
  }

  private void offer(long moments, long moment, long triggered) {
    if (!isAside(triggered)) {
      margins.offerMoments(moments, moment, triggered);
    }
  }

  private void offerLastMet(long moment) {
    if (lastMet != Moments.NEVER) {
      margins.offerMoments(moment - lastMet, moment, lastMetTrigger);
      lastMet = Moments.NEVER;
    }
  }

  private void limitCame(long moment) {
    for (int place = 0; place < standing.size(); place++) {
      if (standing.get(place, SEEN) == Moments.NEVER && standing.get(place, TRIGGER) < moment) {
        standing.set(place, SEEN, moment);
      }
    }
    for (; !responded.isEmpty() && responded.get(0, TRIGGER) < moment; responded.removeFirst()) {
      long response = responded.get(0, SEEN);
      offer(moment - response, moment, responded.get(0, TRIGGER));
      decide(Kind.BORDERLINE, 0, responded, 0, OWN, responded.get(0, TRIGGER), moment, moment);
    }
    while (!waiting.isEmpty() && waiting.get(0, TRIGGER) < moment) {
      if (slack == 0) {
        outOfOrder(waiting, moment, moment);
      } else {
        move(waiting, limited, moment);
      }
      waiting.removeFirst();
    }
  }

  private void outOfOrder(LongQueue queue, long deadline, long moment) {
    long triggered = queue.get(0, TRIGGER);
    if (requiredRecency.unknownSince(triggered)) {
      decide(Kind.UNKNOWN, requiredRecency.cause(triggered), queue, 0, OWN, triggered, moment, deadline);
      return;
    }
    boolean limitEnded = slack > 0 && deadline == triggered + 1 && hasEndedSince(triggered)
        || deadline <= triggered + order.surely() && hasEndedSince(deadline);
    if (mayHaveBeen(queue, P) || limitEnded) {
      decide(Kind.BORDERLINE, 0, queue, 0, OWN, triggered, triggered, deadline);
      return;
    }
    if (decide(Kind.OUT_OF_ORDER, 0, queue, 0, OWN, triggered, deadline, deadline)) {
      late.await(triggered, deadline);
    }
  }

  private void move(LongQueue from, LongQueue to, long moment) {
    int place = to.add();
    to.set(place, TRIGGER, from.get(0, TRIGGER));
    to.set(place, SEEN, moment);
    to.set(place, CONTESTED, from.get(0, CONTESTED));
    cases.copyTrigger(from, 0, OWN, to, place, OWN);
  }

  private void endResponded(long moment) {
    long triggered = responded.get(0, TRIGGER);
    long response = responded.get(0, SEEN);
    if (limitRecency.unknownSince(triggered + 1)) {
      remember(false, response, triggered);
      decide(Kind.UNKNOWN, limitRecency.cause(triggered + 1), responded, 0, OWN, triggered, moment, moment);
    } else if (mayHaveBeen(responded, Q) || response <= triggered + order.surely() && hasFallenSince(response)) {
      remember(false, response, triggered);
      decide(Kind.BORDERLINE, 0, responded, 0, OWN, triggered, triggered, triggered);
    } else {
      met(responded, triggered, response, moment);
    }
    responded.removeFirst();
  }

  /** Whether P, which was so at a moment, has not surely been so all the time since. */
  private boolean hasFallenSince(long moment) {
    return requiredRecency.since(Truth.F, moment) || requiredRecency.since(Truth.U, moment)
        || required.wavered() > moment;
  }

  /** The same of Q. */
  private boolean hasEndedSince(long moment) {
    return limitRecency.since(Truth.F, moment) || limitRecency.since(Truth.U, moment);
  }

  private void endLimited(long moment) {
    outOfOrder(limited, limited.get(0, SEEN), moment);
    limited.removeFirst();
  }

  private long lastMoment(LongQueue queue) {
    return Moments.later(queue.get(0, SEEN), slack - 1);
  }

  private long wake(LongQueue queue) {
    return queue.isEmpty() ? Moments.FOREVER : lastMoment(queue);
  }

  @Override
  void toldOf(Kind kind, long triggered, long deadline, long decided) {
    if (kind == Kind.OUT_OF_ORDER) {
      late.told(triggered, deadline, decided);
    }
  }

  @Override
  public void finish(long last) {
    finishPossible(last);
    requiredRecency.follow(required.value, last);
    limitRecency.follow(limit.value, last);
    while (!standing.isEmpty()) {
      endStanding();
    }
    while (!responded.isEmpty()) {
      endResponded(last);
    }
    while (!limited.isEmpty()) {
      endLimited(last);
    }
    for (; !waiting.isEmpty(); waiting.removeFirst()) {
      decide(Kind.OPEN, 0, waiting, 0, OWN, waiting.get(0, TRIGGER), last, last);
    }
    late.neverCome(last);
  }
}
