package dev.pawl.mqtt.replay;

import dev.pawl.engine.EventSink;
import java.io.IOException;

/** A trace to be played, already known to be sound. */
public interface InputSource {

  /** Time at which the trace ends, in nanoseconds. */
  long end();

  /**
   * Hands over its events in order; the taker sets the pace.
   *
   * @throws IOException if the trace cannot be read any more
   */
  void play(EventSink taker) throws IOException;
}
