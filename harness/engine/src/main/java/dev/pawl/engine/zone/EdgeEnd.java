package dev.pawl.engine.zone;

import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.operator.Happening;

/** An end with a single event, which counts one train. */
final class EdgeEnd extends ZoneEnd {

  private final Event event;
  private final Happening happening;
  private final Step counted;
  private final Step possible;

  EdgeEnd(Event event, Step counted, Step possible, SignalState[] signals) {
    super(signals);
    this.event = event;
    this.happening = new Happening(event);
    this.counted = counted;
    this.possible = possible;
  }

  @Override
  void connect(ZoneNode zone) {
    zone.follow(event);
  }

  @Override
  Step follow(long moment) {
    happening.follow(moment);
    if (happening.happens()) {
      return counted;
    }
    return happening.possiblyHappens() ? possible : Step.NOTHING;
  }
}
