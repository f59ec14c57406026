package dev.pawl.mqtt.guard;

import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.client.PublishPermit;
import dev.pawl.mqtt.client.PublishRefused;
import dev.pawl.mqtt.time.HarnessClock;
import java.io.Closeable;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/**
 * The permit to publish sensor events. It holds while the broker keeps, as a retained message with an expiry, a marker that names the same
 * bench as the person who started the run, and this side is connected so as to see the marker go.
 */
public final class BenchGuard implements PublishPermit, Closeable {

  /** The topic of the marker. */
  public static final String TOPIC = "pawl/bench";

  /** A marker that lives longer protects nobody. */
  public static final Duration LONGEST_LIFE = Duration.ofHours(24);

  /** How a person puts the marker up. */
  public static final String COMMAND = "mosquitto_pub -V mqttv5 -r -q 1 -t " + TOPIC + " -m NAME -D publish message-expiry-interval 3600";
  private static final String HOW = "a person puts it up with: " + COMMAND;
  /** The broker sends what it keeps as soon as a connection is up. */
  private static final long SIGHT = TimeUnit.SECONDS.toNanos(5);
  private static final long TICK = TimeUnit.MILLISECONDS.toNanos(20);

  private final String bench;
  private final HarnessClock clock;
  private final InboundQueue queue;
  private final ListeningConnection connection;
  private final Thread watcher;
  private volatile long openUntil = Long.MIN_VALUE;
  private volatile String reason;
  private volatile boolean closed;
  private volatile boolean blind;
  private volatile long sightDue = Long.MAX_VALUE;

  /**
   * Looks for the marker, and goes on watching it.
   *
   * @param bench the name that the marker must bear
   * @param patience how long to wait for the marker; the broker sends what it keeps at once
   */
  public BenchGuard(ConnectionSettings settings, String bench, HarnessClock clock, Duration patience) {
    this.bench = bench;
    this.clock = clock;
    this.queue = new InboundQueue(64, clock);
    this.reason = "no bench marker '" + bench + "' stands on " + TOPIC + " of " + settings.address() + "; " + HOW;
    this.connection = ListeningConnection.asPublished(settings, List.of(TOPIC), queue);
    this.watcher = new Thread(this::watch, "pawl-bench-guard");
    watcher.setDaemon(true);
    watcher.start();
    awaitOpen(patience);
  }

  private void watch() {
    try {
      while (!closed) {
        Inbound item = queue.take(TICK);
        if (item != null) {
          take(item);
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void take(Inbound item) {
    switch (item.kind()) {
      case MESSAGE -> marker(item);
      case LOST -> {
        blind = true;
        sightDue = Long.MAX_VALUE;
        shut("the connection that watches the bench marker was lost");
      }
      case CONNECTED, RESUMED -> sightDue = clock.now() + SIGHT;
      case OVERFLOW, OWN -> { }
    }
  }

  private void marker(Inbound marker) {
    judge(marker);
    blind = false;
  }

  private void judge(Inbound marker) {
    String name = new String(marker.payload(), StandardCharsets.UTF_8);
    if (name.isEmpty()) {
      shut("the bench marker was taken down");
    } else if (!name.equals(bench)) {
      shut("the bench marker on " + TOPIC + " names another bench than the option does");
    } else if (marker.expirySeconds() == Inbound.NO_NUMBER) {
      shut("the bench marker has no expiry; " + HOW);
    } else if (marker.expirySeconds() > LONGEST_LIFE.toSeconds()) {
      shut("the bench marker lives for more than " + LONGEST_LIFE.toHours() + " hours; " + HOW);
    } else if (!marker.retained()) {
      notKept();
    } else {
      openUntil = marker.arrival() + TimeUnit.SECONDS.toNanos(marker.expirySeconds());
    }
  }

  /** Nothing that the broker does not keep opens anything, or keeps it open for longer. */
  private void notKept() {
    if (openUntil == Long.MIN_VALUE) {
      shut("the bench marker is not retained; " + HOW);
    }
  }

  private void shut(String why) {
    reason = why;
    openUntil = Long.MIN_VALUE;
  }

  @Override
  public Optional<String> refusal(String topic) {
    long until = openUntil;
    if (until == Long.MIN_VALUE) {
      return Optional.of("nothing is published: " + reason);
    }
    return clock.now() < until ? Optional.empty() : Optional.of("nothing is published: the bench marker has expired; " + HOW);
  }

  /**
   * Waits for the marker.
   *
   * @return whether it stands
   */
  public boolean awaitOpen(Duration patience) {
    long deadline = clock.now() + patience.toNanos();
    while (refusal("").isPresent() && clock.now() < deadline) {
      try {
        TimeUnit.NANOSECONDS.sleep(TICK / 4);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return false;
      }
    }
    return refusal("").isEmpty();
  }

  /** Whether the marker cannot be seen because the connection is down, or has just come up, so that it may well be standing. */
  public boolean isBlind() {
    return blind && clock.now() < sightDue;
  }

  /**
   * Does nothing while the marker stands or may stand.
   *
   * @throws PublishRefused if it is gone for good
   */
  public void require() {
    Optional<String> refusal = refusal("");
    if (refusal.isPresent() && !isBlind()) {
      throw new PublishRefused(refusal.get());
    }
  }

  /**
   * Waits while the marker cannot be seen.
   *
   * @param stop ends waiting
   * @return whether it stands
   */
  public boolean awaitSight(Duration patience, BooleanSupplier stop) {
    long deadline = clock.now() + patience.toNanos();
    while (refusal("").isPresent() && isBlind() && clock.now() < deadline && !stop.getAsBoolean()) {
      awaitOpen(Duration.ofNanos(TICK));
    }
    return refusal("").isEmpty();
  }

  @Override
  public void close() {
    closed = true;
    connection.close();
  }
}
