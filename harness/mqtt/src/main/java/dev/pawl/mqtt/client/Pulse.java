package dev.pawl.mqtt.client;

import java.util.Optional;

/**
 * What was heard of a connection: when last, by a whole packet, since a part of one shows nothing yet; and why no more
 * is taken. It stands still once the connection is given up.
 */
final class Pulse {

  private long last = System.nanoTime();
  private boolean ended;
  private Optional<String> refusal = Optional.empty();

  synchronized void beat() {
    if (!ended) {
      last = System.nanoTime();
    }
  }

  synchronized void end() {
    ended = true;
  }

  synchronized void refuse(String why) {
    refusal = Optional.of(why);
  }

  /** Why no more of what comes is taken, in words for the user. */
  synchronized Optional<String> refusal() {
    return refusal;
  }

  /** Nanoseconds since the last beat. */
  synchronized long silence() {
    return System.nanoTime() - last;
  }
}
