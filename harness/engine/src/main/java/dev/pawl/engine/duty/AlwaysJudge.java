package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.operator.Distances;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Truth;

/** {@code always P}: over every stretch in which the rule applies. */
public final class AlwaysJudge extends Judge {

  private final BoolNode required;
  private final BoolNode applies;
  private int appliedBefore = Truth.F;
  private int violatedBefore = Truth.F;
  private long stretchStart;
  private boolean clean;

  /**
   * A judge.
   *
   * @param applies where the rule applies
   */
  public AlwaysJudge(int rule, CaseFile cases, BoolNode required, BoolNode applies, String marginUnit) {
    super(rule, cases, marginUnit);
    this.required = required;
    this.applies = applies;
  }

  @Override
  protected void connect() {
    dependOn(required);
    dependOn(applies);
  }

  @Override
  public boolean update(long moment) {
    int violated = Kleene.and(applies.value, Kleene.not(required.value));
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
    return false;
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

  /** The node that keeps the margin: apart from the judge, so that a number that moves all the time does not judge anew each time. */
  public Node marginKeeper(NumNode distance) {
    return new DistanceKeeper(distance);
  }

  /** The node that keeps the margin where a single comparison is required: such a distance needs no node of its own. */
  public Node marginKeeper(Comparison comparison, NumNode left, NumNode right) {
    return new ComparisonKeeper(comparison, left, right);
  }

  private abstract class MarginKeeper extends Node {
    private int appliedAtLast = Truth.F;
    private long start;

    final void keep(double distance, long moment) {
      if (applies.value != appliedAtLast) {
        appliedAtLast = applies.value;
        start = moment;
      }
      if (appliedAtLast == Truth.T) {
        margins.offer(distance, moment, start);
      }
    }
  }

  private final class DistanceKeeper extends MarginKeeper {
    private final NumNode distance;

    DistanceKeeper(NumNode distance) {
      this.distance = distance;
    }

    @Override
    protected void connect() {
      dependOn(distance);
      dependOn(applies);
    }

    @Override
    public boolean update(long moment) {
      keep(distance.value, moment);
      return false;
    }
  }

  private final class ComparisonKeeper extends MarginKeeper {
    private final Comparison comparison;
    private final NumNode left;
    private final NumNode right;

    ComparisonKeeper(Comparison comparison, NumNode left, NumNode right) {
      this.comparison = comparison;
      this.left = left;
      this.right = right;
    }

    @Override
    protected void connect() {
      dependOn(left);
      dependOn(right);
      dependOn(applies);
    }

    @Override
    public boolean update(long moment) {
      double distance = Distances.of(comparison, left.value, right.value);
      keep(Double.isFinite(distance) ? distance : Double.NaN, moment);
      return false;
    }
  }
}
