package dev.pawl.mqtt.live;

import dev.pawl.mqtt.feed.SenderClocks;
import java.time.Duration;

/**
 * How to listen.
 *
 * @param window how long to wait for what may still come out of order, where messages state their times
 * @param capacity most messages that may wait unacknowledged for being taken
 * @param patience after how long it is said which signals had no value, or that nothing comes
 */
public record LiveOptions(Duration window, int capacity, Duration patience) {

  public static final LiveOptions DEFAULT = new LiveOptions(SenderClocks.USUAL_WINDOW, 100_000,
      Duration.ofSeconds(10));

  public LiveOptions withWindow(Duration other) {
    return new LiveOptions(other, capacity, patience);
  }

  public LiveOptions withPatience(Duration other) {
    return new LiveOptions(window, capacity, other);
  }
}
