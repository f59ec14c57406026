package dev.pawl.mqtt.support;

import dev.pawl.engine.EventSink;

/** Two takers of one stream. */
public record Both(EventSink first, EventSink second) implements EventSink {

  @Override
  public void event(long time, int signal, long value, long line) {
    first.event(time, signal, value, line);
    second.event(time, signal, value, line);
  }

  @Override
  public void advanceTo(long time) {
    first.advanceTo(time);
    second.advanceTo(time);
  }
}
