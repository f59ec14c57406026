package dev.pawl.engine.zone;

import dev.pawl.engine.graph.Event;
import dev.pawl.engine.operator.Happening;

/** An end with a single event, which counts one train. */
final class EdgeFollower extends BoundaryFollower {

  private final boolean entry;
  private final Happening happening;

  EdgeFollower(Event event, boolean entry) {
    this.happening = new Happening(event);
    this.entry = entry;
  }

  @Override
  Step follow(long moment) {
    happening.follow(moment);
    if (happening.happens()) {
      return entry ? Step.IN : Step.OUT;
    }
    if (happening.possiblyHappens()) {
      return entry ? Step.POSSIBLY_IN : Step.POSSIBLY_OUT;
    }
    return Step.NOTHING;
  }
}
