package dev.pawl.mqtt.guard;

import dev.pawl.mqtt.client.PublishRefused;
import dev.pawl.mqtt.client.PublishingConnection;
import java.time.Duration;
import java.util.function.BooleanSupplier;

/** Sends, and waits out a time in which the bench marker cannot be seen. */
public final class PatientPublisher {

  private static final Duration PATIENCE = Duration.ofSeconds(30);

  private final PublishingConnection connection;
  private final BenchGuard guard;
  private final BooleanSupplier stop;

  /**
   * A publisher over a connection whose permit is the guard.
   *
   * @param stop ends waiting
   */
  public PatientPublisher(PublishingConnection connection, BenchGuard guard, BooleanSupplier stop) {
    this.connection = connection;
    this.guard = guard;
    this.stop = stop;
  }

  /**
   * Sends a message as {@link PublishingConnection#publish} does.
   *
   * @throws PublishRefused if the marker is gone for good, or cannot be seen for half a minute
   */
  public void publish(String topic, byte[] payload, long time) {
    while (true) {
      try {
        connection.publish(topic, payload, false, time);
        return;
      } catch (PublishRefused e) {
        if (!guard.awaitSight(PATIENCE, stop)) {
          throw e;
        }
      }
    }
  }
}
