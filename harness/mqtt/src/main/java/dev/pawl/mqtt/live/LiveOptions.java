package dev.pawl.mqtt.live;

import dev.pawl.mqtt.feed.SenderClocks;
import java.time.Duration;

/**
 * How to listen.
 *
 * @param window how long to wait for what may still come out of order, where messages state their times
 * @param capacity most messages that may wait unacknowledged for being taken
 */
public record LiveOptions(Duration window, int capacity) {

  public static final LiveOptions DEFAULT = new LiveOptions(SenderClocks.USUAL_WINDOW, 100_000);

  public LiveOptions withWindow(Duration other) {
    return new LiveOptions(other, capacity);
  }
}
