package dev.pawl.mqtt.replay;

import dev.pawl.engine.EventSink;
import java.io.IOException;
import java.util.Optional;

/** What is played: a trace that is already known to be sound, or a ride in motion. */
public interface InputSource {

  /** Time at which it ends, in nanoseconds; asked for when all has been played. */
  long end();

  /**
   * Hands over its events in order; the taker sets the pace.
   *
   * @throws IOException if the trace cannot be read any more
   */
  void play(EventSink taker) throws IOException;

  /** Where it reacts to outputs: what takes them, between one instant and the next, on the thread that plays. */
  default Optional<EventSink> reacting() {
    return Optional.empty();
  }
}
