package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.grammar.rules.model.Truth;

/** The part that all {@code always} rules share: the stretches in which the rule applies, and those in which it is broken. */
public abstract class StretchJudge extends Judge {

  private final BoolNode applies;
  private int appliedBefore = Truth.F;
  private int violatedBefore = Truth.F;
  private long stretchStart;
  private boolean clean;

  StretchJudge(int rule, CaseFile cases, BoolNode applies, String marginUnit) {
    super(rule, cases, marginUnit);
    this.applies = applies;
  }

  @Override
  protected void connect() {
    dependOn(applies);
  }

  final void judge(int required, long moment) {
    int violated = Kleene.and(applies.value, Kleene.not(required));
    if (applies.value != appliedBefore) {
      endStretch();
      stretchStart = applies.value == Truth.F ? stretchStart : moment;
      clean = true;
      appliedBefore = applies.value;
    }
    clean &= violated == Truth.F;
    if (violated != violatedBefore) {
      violatedBefore = violated;
      count(violated, moment);
    }
  }

  /** Offers the distance of what is required to breaking as a margin, where the rule surely applies. To be called after {@link #judge}. */
  final void offer(double distance, long moment) {
    if (appliedBefore == Truth.T) {
      margins.offer(distance, moment, stretchStart);
    }
  }

  private void endStretch() {
    if (appliedBefore == Truth.T && clean) {
      tally.met++;
    }
  }

  private void count(int violated, long moment) {
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
    endStretch();
    appliedBefore = Truth.F;
  }
}
