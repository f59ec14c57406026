package dev.pawl.engine.zone;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.operator.Happening;

/** An end with a single event, which counts one train. */
final class EdgeFollower extends BoundaryFollower {

  private final BoolNode event;
  private final boolean entry;
  private final Happening happening;

  EdgeFollower(BoolNode event, boolean entry) {
    this.event = event;
    this.happening = new Happening(event);
    this.entry = entry;
  }

  @Override
  Step follow() {
    happening.follow(event.value);
    if (happening.happens()) {
      return entry ? Step.IN : Step.OUT;
    }
    if (happening.possiblyHappens()) {
      return entry ? Step.POSSIBLY_IN : Step.POSSIBLY_OUT;
    }
    return Step.NOTHING;
  }
}
