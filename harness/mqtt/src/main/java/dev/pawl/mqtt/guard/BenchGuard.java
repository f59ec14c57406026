package dev.pawl.mqtt.guard;

import dev.pawl.engine.Caution;
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
 * The permit to publish sensor events. It holds while the broker keeps, as a retained message with an expiry, a marker
 * that names the same bench as the person who started the run, and this side is connected so as to see the marker go.
 */
public final class BenchGuard implements PublishPermit, Closeable {

  /** The topic of the marker. */
  public static final String TOPIC = "pawl/bench";

  /** A marker that lives longer protects nobody. */
  public static final Duration LONGEST_LIFE = Duration.ofHours(24);

  /** How a person puts the marker up. */
  public static final String COMMAND = "mosquitto_pub -V mqttv5 -r -q 1 -t " + TOPIC
      + " -m NAME -D publish message-expiry-interval 3600";
  private static final String HOW = ". " + Caution.INJECTION.text()
      + " On a bench's own broker a person puts the marker up with: " + COMMAND;
  /** The broker sends what it keeps as soon as a connection is up. */
  private static final long SIGHT = TimeUnit.SECONDS.toNanos(5);
  private static final long TICK = TimeUnit.MILLISECONDS.toNanos(20);

  private final String bench;
  private final HarnessClock clock;
  private final InboundQueue queue;
  private final ListeningConnection connection;
  private final Thread watcher;
  private final Inbound.Taker taker = new Seeing();
  private volatile View view;
  private volatile boolean closed;

  /**
   * What is seen of the marker. One object, so that nobody who asks sees half of a change.
   *
   * @param openUntil harness time until which it allows to publish; {@link #SHUT} if it does not
   * @param reason why not
   * @param blindUntil harness time until which it may stand unseen; {@link #SHUT} if it is seen
   */
  private record View(long openUntil, String reason, long blindUntil) {

    private static final long SHUT = Long.MIN_VALUE;

    static View shut(String reason) {
      return new View(SHUT, reason, SHUT);
    }

    /** No connection, so that nothing is seen for as long as it takes. */
    static View lost() {
      return new View(SHUT, "the connection that watches the bench marker was lost", Long.MAX_VALUE);
    }

    /** There is a connection again: if this was blind, the marker is to be seen by the given time. */
    View sightDue(long time) {
      return blindUntil == SHUT ? this
          : new View(SHUT, "no bench marker has been seen since the connection that watches it was lost and made again"
              + HOW, time);
    }

    boolean isShut() {
      return openUntil == SHUT;
    }

    boolean isBlind(long now) {
      return now < blindUntil;
    }

    Optional<String> refusal(long now) {
      if (isShut()) {
        return Optional.of("nothing is published: " + reason);
      }
      return now < openUntil ? Optional.empty() : Optional.of("nothing is published: the bench marker has expired"
          + HOW);
    }
  }

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
    this.view = View.shut("no bench marker '" + bench + "' stands on " + TOPIC + " of " + settings.address() + HOW);
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
          item.giveTo(taker);
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      view = View.shut("the thread that watches the bench marker has ended");
    }
  }

  /** Sees what the connection brings. */
  private final class Seeing implements Inbound.Taker {

    @Override
    public void take(Inbound.Message message) {
      view = judged(message);
    }

    @Override
    public void take(Inbound.Connected connected) {
      view = view.sightDue(clock.now() + SIGHT);
    }

    @Override
    public void take(Inbound.Resumed resumed) {
      view = view.sightDue(clock.now() + SIGHT);
    }

    @Override
    public void take(Inbound.Lost lost) {
      view = View.lost();
    }

    @Override
    public void take(Inbound.Overflow overflow) {
      // The marker is one message; more of them do not matter.
    }

    @Override
    public void take(Inbound.Own own) {
      // Nothing of the harness's own comes here.
    }
  }

  private View judged(Inbound.Message marker) {
    String name = new String(marker.payload(), StandardCharsets.UTF_8);
    if (name.isEmpty()) {
      return View.shut("the bench marker was taken down");
    } else if (!name.equals(bench)) {
      return View.shut("the bench marker on " + TOPIC + " names another bench than the option does");
    } else if (marker.expirySeconds() == Inbound.NO_NUMBER) {
      return View.shut("the bench marker has no expiry" + HOW);
    } else if (marker.expirySeconds() > LONGEST_LIFE.toSeconds()) {
      return View.shut("the bench marker lives for more than " + LONGEST_LIFE.toHours() + " hours" + HOW);
    } else if (!marker.retained()) {
      return notKept();
    }
    return new View(marker.arrival() + TimeUnit.SECONDS.toNanos(marker.expirySeconds()), "", View.SHUT);
  }

  /** Nothing that the broker does not keep opens anything, or keeps it open for longer. */
  private View notKept() {
    return view.isShut() ? View.shut("the bench marker is not retained" + HOW) : view;
  }

  @Override
  public Optional<String> refusal(String topic) {
    return view.refusal(clock.now());
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

  /**
   * Whether the marker cannot be seen because the connection is down, or has just come up, so that it may well be
   * standing.
   */
  private boolean isBlind() {
    return view.isBlind(clock.now());
  }

  /**
   * Does nothing while the marker stands or may stand.
   *
   * @throws PublishRefused if it is gone for good
   */
  public void require() {
    View seen = view;
    long now = clock.now();
    Optional<String> refusal = seen.refusal(now);
    if (refusal.isPresent() && !seen.isBlind(now)) {
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
