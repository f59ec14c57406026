package dev.pawl.engine.zone;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.operator.EventTest;

/** An end with a single event, which counts one train. */
final class EdgeEnd extends ZoneEnd {

  private final Event event;
  private EventTest happening;
  private final Step counted;
  private boolean unseen;

  EdgeEnd(Event event, Begun begun, Step counted, SignalState[] signals) {
    super(begun, signals);
    this.event = event;
    this.counted = counted;
  }

  @Override
  void connect(ZoneNode zone) {
    zone.follow(event);
    zone.follow(begun);
    happening = new EventTest(event, zone);
  }

  @Override
  Step follow(long moment) {
    happening.follow(moment);
    unseen = begun.at() >= moment;
    return happening.happens() ? counted : Step.NOTHING;
  }

  @Override
  boolean mayCount() {
    return unseen || happening.isUnclear();
  }

  @Override
  boolean isHidden() {
    return happening.isUnclear();
  }
}
