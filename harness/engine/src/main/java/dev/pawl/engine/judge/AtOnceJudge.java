package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.Distance;
import dev.pawl.engine.operator.LastMoments;
import dev.pawl.grammar.rules.model.Truth;

/** {@code must P}: decided at the trigger, or as soon as it is certain that P was not otherwise then. */
public final class AtOnceJudge extends TriggeredJudge {

  private static final int TRIGGER = 0;
  /** What the condition was, borderline where it may have been otherwise, having changed just before. */
  private static final int REQUIRED = 1;
  /** What it became in the trigger's image, and is for certain unless it wavers; unknown for nothing. */
  private static final int SHOWN = 2;
  private static final int OWN = 3;

  private final BoolNode required;
  private final Order order;
  private final Distance distance;
  private final LongQueue waiting;
  private final LastMoments recency = new LastMoments();

  /**
   * A judge.
   *
   * @param order how near the trigger the order of what is required is open
   * @param distance distance of {@code required} to breaking, in {@code marginUnit}; null where it has none
   */
  public AtOnceJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, Order order, Distance distance,
      String marginUnit) {
    super(rule, cases, marginUnit, conditions);
    this.required = required;
    this.order = order;
    this.distance = distance;
    this.waiting = new LongQueue(cases.recordWidth(OWN));
    judgePossible(new PossibleResponses(this, required, Window.atTrigger(order), null, true));
  }

  /**
   * Where numbers are read to find the distance, none of their changes matters; but they have to be right when the
   * trigger happens.
   */
  @Override
  protected void connect() {
    super.connect();
    watch(required, order.surely() > 0);
    watchBehind(order);
    if (distance != null) {
      distance.numbers().forEach(number -> dependOnRange(number).ignoreAll());
    }
  }

  @Override
  public boolean update(long moment) {
    if (arises(moment)) {
      arise(moment);
    }
    long next = Moments.FOREVER;
    if (!waiting.isEmpty()) {
      recency.follow(required.value, moment);
      decideUpTo(moment - order.surely());
      next = waiting.isEmpty() ? next : Moments.later(waiting.get(0, TRIGGER), order.surely());
    }
    if (mayHaveArisen()) {
      next = Math.min(next, judgePossible(moment));
    }
    graph.wake(this, next);
    watchWhile(!waiting.isEmpty() || mayHaveArisen());
    return false;
  }

  private void arise(long moment) {
    if (distance != null && !isEarly(moment)) {
      margins.offer(distance.now(), moment, moment);
    }
    boolean contested = isContested(required, order, moment);
    if (order.surely() > 0) {
      int place = waiting.add();
      waiting.set(place, TRIGGER, moment);
      waiting.set(place, REQUIRED, contested ? Truth.B : required.value);
      waiting.set(place, SHOWN, shows(required, order, moment) ? required.value : Truth.U);
      cases.writeTrigger(waiting, place, OWN);
      return;
    }
    Kind kind = switch (required.value) {
      case Truth.T -> contested ? Kind.BORDERLINE : null;
      case Truth.F -> contested ? Kind.BORDERLINE : Kind.NOT_AT_TRIGGER;
      default -> Kind.UNKNOWN;
    };
    decide(kind, required.value, null, 0, 0, moment, moment, moment);
  }

  /** Decides those with triggers up to a moment. */
  private void decideUpTo(long latest) {
    for (; !waiting.isEmpty() && waiting.get(0, TRIGGER) <= latest; waiting.removeFirst()) {
      long triggered = waiting.get(0, TRIGGER);
      decide(kind(triggered), Truth.U, waiting, 0, OWN, triggered, triggered, triggered);
    }
  }

  /** What becomes of the oldest one; null for met. */
  private Kind kind(long triggered) {
    if (waiting.get(0, SHOWN) != Truth.U) {
      return required.wavered() > triggered ? Kind.BORDERLINE
          : waiting.get(0, SHOWN) == Truth.T ? null : Kind.NOT_AT_TRIGGER;
    }
    if (recency.since(Truth.U, triggered)) {
      return Kind.UNKNOWN;
    }
    boolean wasTrue = recency.since(Truth.T, triggered);
    boolean near = waiting.get(0, REQUIRED) == Truth.B || wasTrue && recency.since(Truth.F, triggered)
        || required.wavered() > triggered;
    return near ? Kind.BORDERLINE : wasTrue ? null : Kind.NOT_AT_TRIGGER;
  }

  @Override
  void cancelBefore(long moment) {}

  @Override
  void noteDoubts(long moment) {}

  @Override
  public void finish(long last) {
    finishPossible(last);
    if (!waiting.isEmpty()) {
      recency.follow(required.value, last);
      decideUpTo(last);
    }
  }
}
