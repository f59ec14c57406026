package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Truth;

/** A comparison of {@code time since e} with a number of seconds; becomes another between events, at whole moments. */
public final class TimeSinceCompare extends BoolNode {

  private static final double MOMENTS_PER_SECOND = 2e9;

  private final Comparison comparison;
  private final Event event;
  private final NumNode bound;
  private final long tolerance;
  private final LateBeginning late;
  private final EventTest happening;
  private long happened = Moments.NEVER;

  /** Where it is read at another's moment, {@code slack} says how far off the times are, in moments; else it is 0. */
  public TimeSinceCompare(Comparison comparison, Event event, NumNode bound, double tolerance, long slack,
      LateBeginning late) {
    this.late = late;
    this.comparison = comparison;
    this.event = event;
    this.happening = new EventTest(event, this);
    this.bound = bound;
    this.tolerance = Moments.later((long) Math.rint(tolerance * MOMENTS_PER_SECOND), slack);
  }

  @Override
  protected void connect() {
    dependOn(event);
    dependOn(bound);
    late.begun().ifPresent(this::dependOnRise);
  }

  @Override
  public boolean update(long moment) {
    happening.follow(moment);
    if (happening.happens()) {
      happened = moment;
    } else if (happening.isUnclear() || late.isAt(moment, graph.start())) {
      happened = Moments.NEVER;
    }
    if (happened == Moments.NEVER || bound.value != bound.value) {
      graph.wake(this, Moments.FOREVER);
      return become(Truth.U);
    }
    long limit = (long) Math.rint(bound.value * MOMENTS_PER_SECOND);
    long passed = moment - happened;
    graph.wake(this, Moments.later(moment, nextChange(passed, limit)));
    return become(truth(passed, limit));
  }

  private int truth(long passed, long limit) {
    if (tolerance > 0 && Math.abs(passed - limit) < tolerance) {
      return Truth.B;
    }
    return comparison.holds(passed, limit) ? Truth.T : Truth.F;
  }

  /** How many moments until the truth may change, FOREVER if it will not. */
  private long nextChange(long passed, long limit) {
    long early = Math.max(tolerance, 1) - 1;
    if (passed < limit - early) {
      return limit - early - passed;
    }
    if (passed < limit) {
      return limit - passed;
    }
    long late = Math.max(tolerance, 1);
    return passed < limit + late ? limit + late - passed : Moments.FOREVER;
  }
}
