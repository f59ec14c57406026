package dev.pawl.engine.duty;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.operator.Distance;

/** {@code always P} of any condition. */
public final class AlwaysJudge extends StretchJudge {

  private final BoolNode required;
  private final BoolNode applies;

  /**
   * A judge.
   *
   * @param applies where the rule applies
   */
  public AlwaysJudge(int rule, CaseFile cases, BoolNode required, BoolNode applies, String marginUnit) {
    super(rule, cases, applies, marginUnit);
    this.required = required;
    this.applies = applies;
  }

  @Override
  protected void connect() {
    super.connect();
    dependOn(required);
  }

  @Override
  public boolean update(long moment) {
    judge(required.value, moment);
    return false;
  }

  /** The node that keeps the margin: apart from the judge, so that a number that moves all the time does not judge anew each time. */
  public Node marginKeeper(Distance distance) {
    return new MarginKeeper(distance);
  }

  private final class MarginKeeper extends Node {
    private final Distance distance;

    MarginKeeper(Distance distance) {
      this.distance = distance;
    }

    @Override
    protected void connect() {
      distance.numbers().forEach(this::dependOn);
      dependOn(applies);
    }

    @Override
    public boolean update(long moment) {
      offer(distance.now(), moment);
      return false;
    }
  }
}
