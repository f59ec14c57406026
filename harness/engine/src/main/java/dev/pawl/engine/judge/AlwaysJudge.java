package dev.pawl.engine.judge;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.operator.Distance;

/** {@code always P} of any condition. */
public final class AlwaysJudge extends StretchJudge {

  private final BoolNode required;
  private final Stretch stretch;

  /**
   * A judge.
   *
   * @param stretch where the rule applies
   */
  public AlwaysJudge(int rule, CaseFile cases, BoolNode required, Stretch stretch, String marginUnit) {
    super(rule, cases, stretch, marginUnit);
    this.required = required;
    this.stretch = stretch;
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

  /**
   * The node that keeps the margin: apart from the judge, so that a number that moves all the time does not judge anew
   * each time.
   */
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
      dependOn(stretch.applies());
      dependOnRise(stretch.begun());
    }

    @Override
    public boolean update(long moment) {
      offer(distance.now(), moment);
      return false;
    }
  }
}
