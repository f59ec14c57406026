package dev.pawl.engine.zone;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Truth;

/**
 * An end with two flags, one outside the zone and one inside. A train that comes in covers the outer one, both, the
 * inner one, none; one that goes out the other way round. A train counts as in from the first touch from outside, and
 * as out once it has freed the outer flag last: in doubt the zone is occupied.
 */
final class PairEnd extends ZoneEnd {

  private static final int UNSEEN = -1;

  private final BoolNode outer;
  private final BoolNode inner;
  private ZoneNode zone;
  private boolean hidden;
  private int outerBefore = UNSEEN;
  private int innerBefore = UNSEEN;

  PairEnd(BoolNode outer, BoolNode inner, Begun begun, SignalState[] signals) {
    super(begun, signals);
    this.outer = outer;
    this.inner = inner;
  }

  @Override
  void connect(ZoneNode counting) {
    zone = counting;
    zone.follow(outer);
    zone.follow(inner);
    zone.follow(begun);
  }

  @Override
  Step follow(long moment) {
    int outerNow = outer.value;
    int innerNow = inner.value;
    Step step = step(outerNow, innerNow);
    boolean isBlind = step == Step.LOST;
    boolean wasBlind = Kleene.isUnknown(outerBefore) || Kleene.isUnknown(innerBefore);
    hidden = begun.at() < moment && (isBlind || wasBlind);
    if (hidden && !isBlind) {
      zone.comeBack();
    }
    outerBefore = outerNow;
    innerBefore = innerNow;
    return step;
  }

  /** Where a flag is unknown, or unseen, the count is forgotten altogether. */
  @Override
  boolean mayCount() {
    return false;
  }

  @Override
  boolean isHidden() {
    return hidden;
  }

  private Step step(int outerNow, int innerNow) {
    if (Kleene.isUnknown(outerNow) || Kleene.isUnknown(innerNow)) {
      return Step.LOST;
    }
    if (outerBefore == UNSEEN || Kleene.isUnknown(outerBefore) || Kleene.isUnknown(innerBefore)
        || outerNow == outerBefore) {
      return Step.NOTHING;
    }
    return innerNow != innerBefore ? Step.IMPOSSIBLE : outerChanged(outerNow, innerNow);
  }

  /** Only the outer flag counts: it is the first that a coming train covers and the last that a leaving one frees. */
  private static Step outerChanged(int outerNow, int innerNow) {
    if (innerNow == Truth.T) {
      return Step.NOTHING;
    }
    return outerNow == Truth.T ? Step.IN : Step.OUT;
  }
}
