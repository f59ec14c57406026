package dev.pawl.engine.judge;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.grammar.rules.model.Truth;

/** Possible triggers of {@code must P before Q}. Of the obligations that wait for one P the first sees every Q. */
final class PossibleOrders extends PossibleTriggers {

  private final TriggeredJudge judge;
  private final BoolNode required;
  private final BoolNode limit;
  private final long slack;

  PossibleOrders(TriggeredJudge judge, BoolNode required, BoolNode limit, long slack) {
    super(judge, required, limit);
    this.judge = judge;
    this.required = required;
    this.limit = limit;
    this.slack = slack;
  }

  @Override
  boolean fails(LongQueue all, int place, long first, long last, long moment) {
    boolean limited = limit.value != Truth.F;
    long answered = all.get(place, ANSWERED);
    boolean tooNear = limited && answered != Moments.NEVER && moment - answered < slack;
    long waiting = all.get(place, WAITING);
    if (all.get(place, LIMITED) != Moments.NEVER) {
      return required.value == Truth.T || moment >= lastMoment(all.get(place, LIMITED));
    }
    if (required.value == Truth.T) {
      all.set(place, WAITING, Moments.NEVER);
      if (waiting == Moments.NEVER) {
        return tooNear;
      }
      all.set(place, ANSWERED, moment);
      return tooNear || limited && slack > 0;
    }
    if (waiting == Moments.NEVER && first <= moment && moment <= last) {
      all.set(place, WAITING, moment);
      if (limited) {
        judge.comeBack();
      }
    }
    if (limited && waiting != Moments.NEVER) {
      all.set(place, LIMITED, moment);
      return tooNear || moment >= lastMoment(moment);
    }
    return tooNear;
  }

  private long lastMoment(long limited) {
    return Moments.later(limited, Math.max(slack - 1, 0));
  }

  @Override
  boolean isOver(LongQueue all, long last, long moment) {
    long answered = all.get(0, ANSWERED);
    return all.get(0, WAITING) == Moments.NEVER && (answered == Moments.NEVER || moment - answered >= slack);
  }

  @Override
  long wake(LongQueue all, int place, long first, long moment) {
    long limited = all.get(place, LIMITED);
    return limited == Moments.NEVER ? Moments.FOREVER : lastMoment(limited);
  }

  @Override
  boolean isOpen(LongQueue all, int place, long last, long end) {
    return all.get(place, WAITING) != Moments.NEVER;
  }
}
