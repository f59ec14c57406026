package dev.pawl.mqtt.guard;

import dev.pawl.mqtt.client.PublishRefused;
import dev.pawl.mqtt.client.PublishingConnection;
import java.time.Duration;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;

/** Sends, and waits out a time in which there is no connection, or the bench marker cannot be seen. */
public final class PatientPublisher {

  private static final Duration PATIENCE = Duration.ofSeconds(30);
  private static final long TICK = TimeUnit.MILLISECONDS.toNanos(5);

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

  /** Sends a message at once, or as soon as that can be done. */
  public void publish(String topic, byte[] payload, long time) {
    publish(topic, payload, time, () -> { });
  }

  /**
   * Sends a message as {@link PublishingConnection#publish} does.
   *
   * @param waiting is told before it waits, perhaps more than once; the time of waiting does not count as the broker's
   * @throws PublishRefused if the marker is gone for good, or cannot be seen for half a minute
   */
  public void publish(String topic, byte[] payload, long time, Runnable waiting) {
    if (!connection.isConnected()) {
      hold(waiting);
      awaitConnection();
    }
    while (true) {
      try {
        connection.publish(topic, payload, false, time);
        return;
      } catch (PublishRefused e) {
        hold(waiting);
        if (!guard.awaitSight(PATIENCE, stop)) {
          throw e;
        }
      }
    }
  }

  /**
   * Does nothing as long as nobody else publishes where the connection does.
   *
   * @throws dev.pawl.mqtt.client.ConnectionTrouble if somebody does
   */
  public void requireAlone() {
    connection.requireAlone();
  }

  private void hold(Runnable waiting) {
    connection.hold();
    waiting.run();
  }

  /** What is sent while there is still none goes out when there is. */
  private void awaitConnection() {
    long deadline = System.nanoTime() + PATIENCE.toNanos();
    while (!connection.isConnected() && System.nanoTime() < deadline && !stop.getAsBoolean()) {
      LockSupport.parkNanos(TICK);
    }
  }
}
