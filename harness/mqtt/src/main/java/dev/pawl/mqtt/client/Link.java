package dev.pawl.mqtt.client;

import java.io.Closeable;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/**
 * Keeps one connection up. A thread of its own makes the first connection and every later one; each is a new client of
 * the library, so that nothing of a broken one lives on. A session starts clean, since what a broker kept from before a
 * gap would arrive with a wrong time; but where times do not depend on arrival the settings can ask the broker to keep
 * it.
 */
final class Link implements Closeable {

  private static final long LOOK_MILLISECONDS = 250;
  /** Never subscribed to: asking to end that subscription publishes nothing, and the broker has to answer. */
  private static final String ALIVE_TOPIC = "pawl/alive";
  private static final int MOST_ON_THE_WAY = 1000;

  /**
   * The library logs failures that are told here in this project's own way. Kept, since a logger that nobody holds
   * forgets its level.
   */
  private static final Logger LIBRARY_LOG = Logger.getLogger("org.eclipse.paho.mqttv5");

  static {
    LIBRARY_LOG.setLevel(Level.OFF);
  }

  /** What is done with a connection. Called on the keeper thread, but for {@link #arrived}, which must not wait. */
  interface User {

    /**
     * The connection is up: subscribe. A failure is a lost connection.
     *
     * @param receiveMaximum most messages that the broker takes unacknowledged
     */
    void up(MqttAsyncClient client, int receiveMaximum) throws MqttException;

    /**
     * Up, and all is prepared.
     *
     * @param kept whether this goes on where an earlier connection ended: the broker had kept all that came meanwhile
     */
    void ready(boolean kept);

    /**
     * The connection is gone.
     *
     * @param silence nanoseconds since a packet came whole by it
     */
    void lost(String detail, LongSupplier silence);

    /** A message came, on the library's thread. */
    void arrived(MqttAsyncClient client, String topic, MqttMessage message);
  }

  private final ConnectionSettings settings;
  private final PacketRule rule;
  private final Optional<LastWill> will;
  private final User user;
  private final LinkSocketFactory sockets;
  private final Thread keeper;
  private final CountDownLatch firstTried = new CountDownLatch(1);
  private final CountDownLatch closing = new CountDownLatch(1);
  private volatile ConnectionTrouble firstTrouble;
  private volatile MqttAsyncClient current;
  private volatile Session session;

  Link(ConnectionSettings settings, PacketRule rule, Optional<LastWill> will, User user) {
    this.settings = settings;
    this.rule = rule;
    this.will = will;
    this.user = user;
    this.sockets = new LinkSocketFactory(settings, rule);
    this.keeper = new Thread(new Crew(), this::keep, "pawl-link-" + settings.clientId());
    keeper.setDaemon(true);
  }

  /**
   * Makes the first connection.
   *
   * @throws ConnectionTrouble if that fails; later failures are tried again until closed
   */
  void open() {
    keeper.start();
    try {
      firstTried.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      close();
      throw new ConnectionTrouble("interrupted while connecting to " + settings.address());
    }
    if (firstTrouble != null) {
      throw firstTrouble;
    }
  }

  /** The client of the present connection; null while there is none. */
  MqttAsyncClient current() {
    return current;
  }

  /** Nanoseconds since a packet came whole by the newest connection. */
  long silence() {
    return sockets.pulse().silence();
  }

  /** Asks the broker for a sign of life. */
  void askForLife() {
    MqttAsyncClient client = current;
    try {
      if (client != null) {
        client.unsubscribe(ALIVE_TOPIC);
      }
    } catch (MqttException e) {
      // The connection is gone, as its end will tell.
    }
  }

  /**
   * Does nothing as long as somebody keeps the connection up, and tells of its end.
   *
   * @throws ConnectionTrouble if nobody does any more
   */
  void requireKept() {
    if (!keeper.isAlive() && !isClosing()) {
      throw new ConnectionTrouble("the connection to " + settings.address()
          + " is not kept up any more, since its thread failed");
    }
  }

  /** Ends the present connection, if there is one; it is made again by itself. */
  void renew(String why) {
    Session present = session;
    if (present != null && current != null) {
      present.detail = why;
      present.ended.countDown();
    }
  }

  private void keep() {
    Duration delay = ConnectionSettings.FIRST_DELAY;
    boolean connectedBefore = false;
    while (!isClosing()) {
      session = new Session();
      Duration delayBefore = delay;
      try {
        session.connect(connectedBefore);
        current = session.client;
        delay = ConnectionSettings.FIRST_DELAY;
        user.ready(connectedBefore && session.kept);
        session.letIn();
        connectedBefore = true;
        firstTried.countDown();
        session.awaitEnd();
        if (isClosing()) {
          Ending.politely(session.client);
        }
      } catch (MqttException | ConnectionTrouble e) {
        if (!connectedBefore) {
          firstTrouble = trouble(e);
          firstTried.countDown();
          session.discard();
          return;
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        closing.countDown();
      } catch (RuntimeException | Error e) {
        session.failed(e);
        if (!connectedBefore) {
          firstTrouble = new ConnectionTrouble("cannot connect to " + settings.address() + ": " + session.detail, e);
          firstTried.countDown();
          session.discard();
          return;
        }
      }
      Pulse pulse = sockets.pulse();
      pulse.end();
      if (pulse.refusal().isPresent()) {
        // A message that the broker keeps will come again, so it is not asked for without a pause.
        delay = delayBefore;
      }
      boolean wasUp = current != null;
      current = null;
      session.shut();
      if (wasUp && !isClosing()) {
        user.lost(pulse.refusal().orElse(session.detail), pulse::silence);
      }
      session.discard();
      delay = pause(delay);
    }
  }

  private Duration pause(Duration delay) {
    try {
      closing.await(delay.toNanos(), TimeUnit.NANOSECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      closing.countDown();
    }
    Duration doubled = delay.multipliedBy(2);
    return doubled.compareTo(ConnectionSettings.LONGEST_DELAY) > 0 ? ConnectionSettings.LONGEST_DELAY : doubled;
  }

  private boolean isClosing() {
    return closing.getCount() == 0;
  }

  private ConnectionTrouble trouble(Exception e) {
    if (e instanceof ConnectionTrouble known) {
      return known;
    }
    Throwable cause = e.getCause() == null ? e : e.getCause();
    return new ConnectionTrouble("cannot connect to " + settings.address() + ": " + Reasons.of(e, cause), e);
  }

  /**
   * Has the keeper thread say goodbye, since the library does not bear being ended by two threads, and waits for it.
   */
  @Override
  public void close() {
    closing.countDown();
    Session last = session;
    if (last != null) {
      last.ended.countDown();
    }
    try {
      keeper.join(ConnectionSettings.PATIENCE.toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /**
   * The threads of this connection, the library's own with them: one that fails takes the connection with it, so that
   * nobody is left deaf.
   */
  private final class Crew extends ThreadGroup {

    Crew() {
      super("pawl-link");
    }

    @Override
    public void uncaughtException(Thread thread, Throwable failure) {
      Session present = session;
      if (present != null) {
        present.failed(failure);
      }
    }
  }

  /** One connection from its making to its end. */
  private final class Session implements MqttCallback {

    private final CountDownLatch ended = new CountDownLatch(1);
    private MqttAsyncClient client;
    private boolean kept;
    /**
     * What came before the user was told that the connection is ready, which it has to know first; null from then on.
     */
    private List<Runnable> early = new ArrayList<>();
    private volatile boolean isShut;
    private volatile String detail = "the connection ended";

    void connect(boolean again) throws MqttException {
      String uri = "tcp://" + settings.address().host() + ":" + settings.address().port();
      client = new MqttAsyncClient(uri, settings.clientId(), new MemoryPersistence());
      client.setManualAcks(true);
      client.setCallback(this);
      IMqttToken token = client.connect(ConnectOptions.of(settings, rule, will, sockets, again));
      token.waitForCompletion(ConnectionSettings.PATIENCE.toMillis());
      kept = token.getSessionPresent();
      user.up(client, receiveMaximum(token.getResponseProperties()));
    }

    private static int receiveMaximum(MqttProperties properties) {
      Integer stated = properties == null ? null : properties.getReceiveMaximum();
      return Math.min(MOST_ON_THE_WAY, stated == null ? MOST_ON_THE_WAY : stated);
    }

    /**
     * The library tells of the end; that it may forget to, of one between two of its states, is seen by a look now and
     * then.
     */
    void awaitEnd() throws InterruptedException {
      boolean over = isClosing();
      while (!over) {
        over = ended.await(LOOK_MILLISECONDS, TimeUnit.MILLISECONDS) || !client.isConnected() || isDeaf();
      }
    }

    /** A broken cable, and a thread that has stopped reading, show by nothing coming though the broker is asked. */
    private boolean isDeaf() {
      long silence = silence();
      if (silence > settings.keepAlive().toNanos()) {
        detail = "no sign of life came";
        return true;
      }
      if (silence > TimeUnit.MILLISECONDS.toNanos(LOOK_MILLISECONDS) / 2) {
        askForLife();
      }
      return false;
    }

    /**
     * Something under or above this connection failed; nothing that comes by it counts any more. Makes no objects:
     * there may be no room for any.
     */
    void failed(Throwable failure) {
      detail = failure instanceof OutOfMemoryError ? "out of memory" : "a thread of it failed";
      isShut = true;
      ended.countDown();
    }

    void discard() {
      if (client != null) {
        Ending.atOnce(client);
      }
    }

    @Override
    public void disconnected(MqttDisconnectResponse response) {
      detail = Reasons.of(response);
      ended.countDown();
    }

    @Override
    public synchronized void messageArrived(String topic, MqttMessage message) {
      if (isShut) {
        return;
      }
      try {
        if (early != null) {
          early.add(() -> user.arrived(client, topic, message));
        } else {
          user.arrived(client, topic, message);
        }
      } catch (RuntimeException | Error e) {
        failed(e);
      }
    }

    /**
     * Lets nothing in any more: what the library's thread still has in hand would come after the news that the
     * connection is gone, or even after what the next one brings. It is not acknowledged, so a broker that keeps the
     * session sends it again.
     */
    synchronized void shut() {
      isShut = true;
    }

    /** Gives on what came early, before anything that comes now. */
    synchronized void letIn() {
      early.forEach(Runnable::run);
      early = null;
    }

    @Override
    public void mqttErrorOccurred(MqttException exception) {
      // What matters of it comes as a disconnection.
    }

    @Override
    public void deliveryComplete(IMqttToken token) {
      // Each publication has a listener of its own.
    }

    @Override
    public void connectComplete(boolean reconnect, String serverUri) {
      // The keeper thread waits for this itself.
    }

    @Override
    public void authPacketArrived(int reasonCode, MqttProperties properties) {
      // No method of authentication that would need one is offered.
    }
  }
}
