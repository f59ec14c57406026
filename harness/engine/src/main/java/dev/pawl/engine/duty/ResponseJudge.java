package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.Distance;
import dev.pawl.engine.operator.Recency;
import dev.pawl.grammar.rules.model.Truth;

/**
 * {@code must P after D1 within D2} and {@code must P after D1 throughout D2}, which are two sides of one thing: an event (P becoming true, or
 * false) that has to come, or must not come, in a window after the trigger. All windows of a rule have one length, so the queue of waiting
 * obligations is in the order of their openings and of their deadlines.
 */
public final class ResponseJudge extends TriggeredJudge {

  private static final int OWN = 1;

  private final BoolNode required;
  private final Distance distance;
  private final Window window;
  private final Stay stay;
  private final Recency recency = new Recency();
  private final LongQueue waiting;
  private final LateResponses late;
  private final RunningMinimum minimum = new RunningMinimum();
  private int opened;

  /**
   * The window, in moments.
   *
   * @param opens from the trigger to the opening
   * @param length from the opening to the deadline
   * @param slack twice the resolution in nanoseconds: what is nearer to the deadline than this is borderline; 0 for exact
   * @param throughout whether P must be true at all its moments rather than at one
   * @param atTrigger whether it is the trigger instant alone, so that a response has no time and no margin
   */
  public record Window(long opens, long length, long slack, boolean throughout, boolean atTrigger) {

    /** The window of a plain {@code must P} that has something to follow. */
    public static final Window AT_TRIGGER = new Window(0, 0, 0, false, true);
  }

  /**
   * A judge.
   *
   * @param distance for {@code throughout}, the distance of {@code required} to breaking in {@code marginUnit}; null where it has none
   * @param stay what follows a response; null for nothing
   */
  public ResponseJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, Window window, Distance distance,
      String marginUnit, Stay stay) {
    super(rule, cases, marginUnit, conditions);
    this.required = required;
    this.window = window;
    this.distance = distance;
    this.stay = stay;
    this.waiting = new LongQueue(cases.recordWidth(OWN));
    this.late = new LateResponses(margins, cases);
    if (stay != null) {
      stay.serve(this);
    }
  }

  @Override
  protected void connect() {
    super.connect();
    watch(required, window.throughout || stay != null);
    if (distance != null) {
      distance.numbers().forEach(number -> watch(number, true));
    }
    if (stay != null && stay.release() != null) {
      watch(stay.release(), true);
    }
  }

  @Override
  public boolean update(long moment) {
    if (arises(moment)) {
      arise(moment);
    }
    judge(moment);
    watchWhile(isBusy(), moment);
    return false;
  }

  private boolean isBusy() {
    return !waiting.isEmpty() || late.isAwaited() || stay != null && !stay.isEmpty();
  }

  private void arise(long moment) {
    int place = waiting.add();
    waiting.set(place, 0, moment);
    cases.writeTrigger(waiting, place, OWN);
  }

  @Override
  long cancelAll() {
    long cancelled = waiting.size() + (stay == null ? 0 : stay.cancelAll());
    waiting.clear();
    opened = 0;
    return cancelled;
  }

  private void judge(long moment) {
    if (stay != null) {
      stay.beforeFollowing(recency, moment);
    }
    recency.follow(required.value, moment);
    followDistance(moment);
    while (opened < waiting.size() && opening(opened) <= moment) {
      opened++;
    }
    if (required.value == (window.throughout ? Truth.F : Truth.T)) {
      if (!window.throughout) {
        late.come(moment);
      }
      for (; opened > 0; opened--) {
        eventCame(moment);
        waiting.removeFirst();
      }
    }
    if (stay != null) {
      stay.judge(required.value, recency, moment);
    }
    while (opened > 0 && lastMoment(0) <= moment) {
      expire(moment);
    }
    graph.wake(this, nextWake());
  }

  private void followDistance(long moment) {
    if (distance != null) {
      minimum.follow(distance.now(), moment);
      minimum.forgetBefore(waiting.isEmpty() ? moment : Math.min(moment, opening(0)));
    }
  }

  private long opening(int place) {
    return Moments.later(waiting.get(place, 0), window.opens);
  }

  private long deadline(int place) {
    return Moments.later(opening(place), window.length);
  }

  private long lastMoment(int place) {
    return Moments.later(deadline(place), Math.max(window.slack - 1, 0));
  }

  private long nextWake() {
    long next = opened > 0 ? lastMoment(0) : Moments.FOREVER;
    if (opened < waiting.size()) {
      next = Math.min(next, opening(opened));
    }
    return stay == null ? next : Math.min(next, stay.nextWake());
  }

  /** The event came at {@code moment} for the oldest obligation. */
  private void eventCame(long moment) {
    long triggered = waiting.get(0, 0);
    long opening = opening(0);
    long deadline = deadline(0);
    boolean near = moment != opening && Math.abs(deadline - moment) < window.slack;
    if (window.throughout) {
      offerThroughout(opening, deadline, moment, triggered);
      decide(near ? Kind.BORDERLINE : Kind.NOT_THROUGHOUT, 0, waiting, 0, OWN, triggered, moment, deadline);
      return;
    }
    if (!window.atTrigger) {
      margins.offerMoments(deadline - moment, moment, triggered);
    }
    if (stay == null) {
      decide(near ? Kind.BORDERLINE : null, 0, waiting, 0, OWN, triggered, moment, deadline);
    } else if (recency.unknownSince(opening)) {
      decide(Kind.UNKNOWN, recency.cause(opening), waiting, 0, OWN, triggered, moment, deadline);
    } else {
      stay.begin(waiting, OWN, triggered, moment, near);
    }
  }

  /** The window of the oldest obligation has closed without the event. */
  private void expire(long moment) {
    long triggered = waiting.get(0, 0);
    long opening = opening(0);
    long deadline = deadline(0);
    if (window.throughout && distance != null) {
      offerThroughout(opening, deadline, moment, triggered);
    }
    if (recency.unknownSince(opening)) {
      decide(Kind.UNKNOWN, recency.cause(opening), waiting, 0, OWN, triggered, moment, deadline);
    } else if (window.throughout) {
      decide(null, 0, waiting, 0, OWN, triggered, moment, deadline);
    } else {
      long missedBefore = tally.missed;
      Kind kind = window.atTrigger ? Kind.NOT_AT_TRIGGER : Kind.NO_RESPONSE;
      decide(kind, 0, waiting, 0, OWN, triggered, deadline, deadline);
      if (tally.missed > missedBefore && !window.atTrigger) {
        late.await(triggered, deadline);
      }
    }
    waiting.removeFirst();
    opened--;
  }

  private void offerThroughout(long opening, long deadline, long moment, long triggered) {
    if (distance == null) {
      margins.offerMoments(moment - deadline, moment, triggered);
    } else if (minimum.find(opening)) {
      margins.offer(minimum.least(), minimum.place(), triggered);
    }
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
      expire(last);
    }
    for (; !waiting.isEmpty(); waiting.removeFirst()) {
      if (distance != null && minimum.find(opening(0))) {
        margins.offer(minimum.least(), minimum.place(), waiting.get(0, 0));
      }
      decide(Kind.OPEN, 0, waiting, 0, OWN, waiting.get(0, 0), last, deadline(0));
    }
    if (stay != null) {
      stay.finish(recency, last);
    }
    late.neverCome(last);
  }
}
