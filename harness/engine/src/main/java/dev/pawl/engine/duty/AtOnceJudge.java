package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.operator.Distance;
import dev.pawl.grammar.rules.model.Truth;

/** {@code must P}: decided at the trigger instant, so that nothing ever waits. */
public final class AtOnceJudge extends TriggeredJudge {

  private final BoolNode required;
  private final BoolNode sameRow;
  private final Distance distance;

  /**
   * A judge.
   *
   * @param sameRow while this is not false, {@code required} may have been otherwise when the trigger happened; null for never
   * @param distance distance of {@code required} to breaking, in {@code marginUnit}; null where it has none
   */
  public AtOnceJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, BoolNode sameRow, Distance distance,
      String marginUnit) {
    super(rule, cases, marginUnit, conditions);
    this.required = required;
    this.sameRow = sameRow;
    this.distance = distance;
    judgePossible(new PossibleResponses(this, required, Window.AT_TRIGGER, null, sameRow));
  }

  /** Where numbers are read to find the distance, none of their changes matters; but they have to be right when the trigger happens. */
  @Override
  protected void connect() {
    super.connect();
    watch(required, false);
    if (distance != null) {
      distance.numbers().forEach(number -> lookOut(number).ignoreAll());
    }
  }

  @Override
  public boolean update(long moment) {
    if (arises(moment)) {
      arise(moment);
    }
    if (mayHaveArisen()) {
      graph.wake(this, judgePossible(moment));
    }
    watchWhile(mayHaveArisen());
    return false;
  }

  private void arise(long moment) {
    Kind kind = switch (required.value) {
      case Truth.T -> isInDoubt(sameRow) ? Kind.BORDERLINE : null;
      case Truth.F -> isInDoubt(sameRow) ? Kind.BORDERLINE : Kind.NOT_AT_TRIGGER;
      default -> Kind.UNKNOWN;
    };
    decide(kind, required.value, null, 0, 0, moment, moment, moment);
    if (distance != null && !isEarly(moment)) {
      margins.offer(distance.now(), moment, moment);
    }
  }

  @Override
  long cancelAll() {
    return 0;
  }

  @Override
  public void finish(long last) {
    finishPossible(last);
  }
}
