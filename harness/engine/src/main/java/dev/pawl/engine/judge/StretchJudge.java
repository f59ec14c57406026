package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.Wavering;
import dev.pawl.grammar.rules.model.Truth;

/**
 * The part that all {@code always} rules share: the stretches in which the rule applies, and those in which it is
 * broken.
 */
public abstract class StretchJudge extends Judge {

  private final BoolNode applies;
  private final Begun begun;
  private final boolean looksBack;
  private final long apart;
  private final Wavering breach;
  /** Since when it has been broken, not yet for long enough; {@link Moments#NEVER} where it is not. */
  private long brokenSince = Moments.NEVER;
  /** When events broke it that what turns soon may have come before, and since when it had applied then. */
  private final LongQueue broken = new LongQueue(2);
  private int appliedBefore = Truth.F;
  private int violatedBefore = Truth.F;
  private long stretchStart;
  /** Since when the stretch counts: its start, but not before the rule began. */
  private long countedFrom;
  private boolean clean;

  /**
   * Where a rule applies.
   *
   * @param begun before it has, only what is broken counts
   * @param looksBack whether not even that counts before, since it may rest on what was not seen
   * @param apart how long, in moments, it has to be broken at least to be so for certain
   * @param breach that it applies and is broken, where that may waver; null where it does not
   */
  public record Stretch(BoolNode applies, Begun begun, boolean looksBack, long apart, Wavering breach) {}

  StretchJudge(int rule, CaseFile cases, Stretch stretch, String marginUnit) {
    super(rule, cases, marginUnit);
    this.applies = stretch.applies;
    this.begun = stretch.begun;
    this.looksBack = stretch.looksBack;
    this.apart = stretch.apart;
    this.breach = stretch.breach;
  }

  @Override
  protected void connect() {
    dependOn(applies);
    dependOnRise(begun);
    if (breach != null) {
      dependOn(breach);
    }
  }

  @Override
  final boolean hasBegunBefore(long moment) {
    return begun.at() < moment;
  }

  final boolean hasBegun() {
    return begun.value == Truth.T;
  }

  final void judge(int required, long moment) {
    int seen = Kleene.and(applies.value, Kleene.not(required));
    boolean wavers = breach != null && breach.wavered() == moment;
    int shown = seen == Truth.F && wavers ? Truth.B : seen;
    int violated = hasBegun() || shown == Truth.T && !looksBack ? shown : Truth.F;
    if (violated != violatedBefore) {
      tooShort();
    }
    boolean turns = applies.value != appliedBefore;
    if (turns || begun.at() == moment) {
      endStretch(moment);
      stretchStart = turns && applies.value != Truth.F ? moment : stretchStart;
      countedFrom = moment;
      clean = true;
      appliedBefore = applies.value;
    }
    clean &= violated == Truth.F;
    if (violated != violatedBefore) {
      violatedBefore = violated;
      if (violated == Truth.T && apart > 1 && !(breach != null && breach.happened() == moment)) {
        brokenSince = moment;
      } else if (violated == Truth.T && apart > 1) {
        int place = broken.add();
        broken.set(place, 0, moment);
        broken.set(place, 1, stretchStart);
      } else if (violated == Truth.B && applies.value == Truth.F) {
        tally.borderline++;
        cases.tellState(Kind.BORDERLINE, moment, moment);
      } else {
        count(violated, moment);
      }
    }
    if (brokenSince != Moments.NEVER && moment - brokenSince >= apart - 1) {
      count(Truth.T, brokenSince);
      brokenSince = Moments.NEVER;
    }
    countBroken(Truth.T, moment - apart + 1);
    if (apart > 1) {
      long next = Math.min(brokenSince == Moments.NEVER ? Moments.FOREVER : brokenSince,
          broken.isEmpty() ? Moments.FOREVER : broken.get(0, 0));
      graph.wake(this, Moments.later(next, apart - 1));
    }
  }

  /** Counts what events broke up to a moment, as borderline where it has wavered since. */
  private void countBroken(int violated, long latest) {
    for (; !broken.isEmpty() && broken.get(0, 0) <= latest; broken.removeFirst()) {
      boolean open = breach.wavered() >= broken.get(0, 0);
      count(open ? Truth.B : violated, broken.get(0, 1), broken.get(0, 0));
    }
  }

  /** It has not been broken for long enough to be so for certain. */
  private void tooShort() {
    if (brokenSince != Moments.NEVER) {
      count(Truth.B, brokenSince);
      brokenSince = Moments.NEVER;
    }
  }

  /**
   * Offers the distance of what is required to breaking as a margin, where the rule surely applies. To be called after
   * {@link #judge}.
   */
  final void offer(double distance, long moment) {
    if (appliedBefore == Truth.T && (hasBegun() || violatedBefore == Truth.T)) {
      margins.offer(distance, moment, stretchStart);
    }
  }

  private void endStretch(long end) {
    if (appliedBefore == Truth.T && begun.at() < end) {
      if (clean) {
        countMet(countedFrom);
      }
      tally.watched += (end - countedFrom) / 2;
    }
  }

  private void count(int violated, long moment) {
    count(violated, stretchStart, moment);
  }

  private void count(int violated, long stretchStart, long moment) {
    switch (violated) {
      case Truth.T -> {
        tally.missed++;
        cases.tellState(Kind.FALSE_STATE, stretchStart, moment);
      }
      case Truth.U -> {
        tally.unknown++;
        cases.tellState(Kind.UNKNOWN, stretchStart, moment);
      }
      case Truth.B -> {
        tally.borderline++;
        cases.tellState(Kind.BORDERLINE, stretchStart, moment);
      }
      default -> { }
    }
  }

  @Override
  public void finish(long last) {
    clean &= countedFrom < last;
    tooShort();
    countBroken(Truth.B, last);
    endStretch(last + 1);
    appliedBefore = Truth.F;
  }
}
