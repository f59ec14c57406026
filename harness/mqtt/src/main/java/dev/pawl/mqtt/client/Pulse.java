package dev.pawl.mqtt.client;

/** When a connection was last heard: by a whole packet, since a part of one shows nothing yet. It stands still once the connection is given up. */
final class Pulse {

  private long last = System.nanoTime();
  private boolean ended;

  synchronized void beat() {
    if (!ended) {
      last = System.nanoTime();
    }
  }

  synchronized void end() {
    ended = true;
  }

  /** Nanoseconds since the last beat. */
  synchronized long silence() {
    return System.nanoTime() - last;
  }
}
