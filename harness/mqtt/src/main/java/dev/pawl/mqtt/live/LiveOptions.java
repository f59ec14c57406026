package dev.pawl.mqtt.live;

import java.time.Duration;

/**
 * How to listen.
 *
 * @param window how long to wait for what may still come out of order, where messages state their times
 * @param jump by how much a sender's clock must depart from its estimate to have jumped
 * @param capacity most messages that may wait unacknowledged for being taken
 */
public record LiveOptions(Duration window, Duration jump, int capacity) {

  public static final LiveOptions DEFAULT = new LiveOptions(Duration.ofMillis(200), Duration.ofSeconds(5), 100_000);

  public LiveOptions withWindow(Duration other) {
    return new LiveOptions(other, jump, capacity);
  }
}
