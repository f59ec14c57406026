package dev.pawl.engine.zone;

import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.operator.Happening;

/** An end with a single event, which counts one train. */
final class EdgeEnd extends ZoneEnd {

  private final Event event;
  private Happening happening;
  private final Step counted;
  private final Step possible;

  EdgeEnd(Event event, Step counted, Step possible, SignalState[] signals) {
    super(signals);
    this.event = event;
    this.counted = counted;
    this.possible = possible;
  }

  @Override
  void connect(ZoneNode zone) {
    zone.follow(event);
    happening = new Happening(event, zone);
  }

  @Override
  Step follow(long moment) {
    happening.follow(moment);
    if (happening.happens()) {
      return counted;
    }
    return happening.isUnclear() ? possible : Step.NOTHING;
  }

  @Override
  boolean isHidden() {
    return happening.isUnclear();
  }
}
