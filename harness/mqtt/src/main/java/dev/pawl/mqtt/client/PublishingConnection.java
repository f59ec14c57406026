package dev.pawl.mqtt.client;

import dev.pawl.mqtt.time.HarnessClock;
import java.io.Closeable;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.LockSupport;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.BooleanSupplier;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttActionListener;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;

/**
 * A connection that sends, message by message with a permit. Every message bears the run's name and its number on its
 * topic; one that the broker has not acknowledged is sent again, with the same number, once a lost connection is up
 * again.
 *
 * <p>A thread of its own calls the library, with no lock held; the library's callbacks only leave a note for it and
 * take no lock. Both together keep clear of deadlocks between the library's locks and this class's.
 */
public final class PublishingConnection implements Closeable {

  private static final int MOST_WAITING = 2000;
  private static final int FIRST_FAILURE = 0x80;
  private static final int AT_MOST_ONCE = 0;
  private static final long RETRY = TimeUnit.MILLISECONDS.toNanos(20);

  private final ConnectionSettings settings;
  private final PublishPermit permit;
  private final HarnessClock clock;
  private final String run;
  private final Link link;
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition changed = lock.newCondition();
  private final Outbox outbox = new Outbox();
  private final List<String> claimed;
  private final Strangers strangers = new Strangers();
  private final ConcurrentLinkedQueue<Answer> answers = new ConcurrentLinkedQueue<>();
  private final Thread sender;
  private volatile boolean closing;
  private long connectionsLost;
  private String refusal = "";

  /**
   * Connects.
   *
   * @param run name of the run, written on every message
   * @param will what the broker says if this client vanishes
   * @throws ConnectionTrouble if the first connection fails; later ones are made again by themselves
   */
  public PublishingConnection(ConnectionSettings settings, String run, Optional<LastWill> will, PublishPermit permit,
      HarnessClock clock) {
    this(settings, run, will, permit, List.of(), clock);
  }

  /**
   * The same for topics that nobody else is to publish to: the connection listens there to all but what it sends itself
   * (MQTT 5, no local). Once somebody else is heard, nothing more is sent.
   *
   * @param claimed the topics
   */
  public PublishingConnection(ConnectionSettings settings, String run, Optional<LastWill> will, PublishPermit permit,
      List<String> claimed,
      HarnessClock clock) {
    this.claimed = List.copyOf(claimed);
    this.settings = settings;
    this.permit = permit;
    this.clock = clock;
    this.run = run;
    will.ifPresent(w -> require(w.topic()));
    this.link = new Link(settings, PacketRule.ANY, will, new Connected());
    this.sender = new Thread(this::work, "pawl-sender-" + settings.clientId());
    sender.setDaemon(true);
    link.open();
    sender.start();
  }

  /**
   * Sends a message at quality 1, waiting while too many are on the way.
   *
   * @param time the trace time it stands for, or {@link Inbound#NO_NUMBER}
   * @return the message's number among all
   * @throws PublishRefused if the permit does not cover it
   * @throws ConnectionTrouble if the broker refused an earlier one, or took nothing for longer than the settings'
   *     patience while connected
   */
  public long publish(String topic, byte[] payload, boolean retain, long time) {
    return publish(topic, payload, retain, time, Outbox.FOR_EVER);
  }

  /** Sends a message that the broker keeps until its life is over. */
  public long publishExpiring(String topic, byte[] payload, Duration life) {
    return publish(topic, payload, true, Inbound.NO_NUMBER, life.toSeconds());
  }

  private long publish(String topic, byte[] payload, boolean retain, long time, long lifeSeconds) {
    require(topic);
    lock.lock();
    try {
      awaitUntil(() -> outbox.size() < MOST_WAITING || !refusal.isEmpty());
      requireNoRefusal();
      return outbox.add(topic, payload, retain, time, lifeSeconds, clock.now());
    } finally {
      lock.unlock();
      LockSupport.unpark(sender);
    }
  }

  private void require(String topic) {
    Optional<String> refused = permit.refusal(topic);
    if (refused.isPresent()) {
      throw new PublishRefused(refused.get());
    }
  }

  /**
   * Listens whether anybody else publishes to the claimed topics, before anything is sent.
   *
   * @param stop ends listening
   * @throws ConnectionTrouble if somebody was heard, or if the connection was lost meanwhile
   */
  public void requireAlone(Duration listening, BooleanSupplier stop) {
    long deadline = clock.now() + listening.toNanos();
    while (clock.now() < deadline && !stop.getAsBoolean()) {
      LockSupport.parkNanos(RETRY);
    }
    requireAlone();
    if (connectionsLost() > 0) {
      throw new ConnectionTrouble("the connection to " + settings.address()
          + " was lost while listening who else publishes; nothing was sent");
    }
  }

  /**
   * Does nothing as long as nobody else was heard on the claimed topics.
   *
   * @throws ConnectionTrouble if somebody was
   */
  public void requireAlone() {
    if (!strangers.isEmpty()) {
      throw new ConnectionTrouble(notAlone());
    }
  }

  /** The claimed topics on which others were heard, in words; empty if there are none. */
  public String strangers() {
    return strangers.text();
  }

  private String notAlone() {
    return "somebody else publishes where this run does, so nothing more is sent: " + strangers.text()
        + "; find out who, clear what the broker has kept, or bind the signals to other topics";
  }

  /** Whether a message more would not have to wait. */
  public boolean hasRoom() {
    return unacknowledged() < MOST_WAITING;
  }

  /**
   * Waits until the broker has acknowledged all.
   *
   * @return whether it has
   * @throws ConnectionTrouble if it refused one
   */
  public boolean awaitAcknowledged(Duration patience) {
    lock.lock();
    try {
      long left = patience.toNanos();
      while (outbox.size() > 0 && left > 0 && refusal.isEmpty()) {
        left = changed.awaitNanos(left);
      }
      requireNoRefusal();
      return outbox.size() == 0;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    } finally {
      lock.unlock();
    }
  }

  private void requireNoRefusal() {
    if (!refusal.isEmpty()) {
      throw new ConnectionTrouble(refusal);
    }
  }

  private void awaitUntil(BooleanSupplier condition) {
    try {
      long left = ConnectionSettings.PATIENCE.toNanos();
      while (!condition.getAsBoolean()) {
        if (left <= 0 && link.current() != null) {
          throw new ConnectionTrouble(settings.address() + " takes no messages any more");
        }
        left = changed.awaitNanos(Math.max(left, RETRY));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new ConnectionTrouble("interrupted while sending to " + settings.address());
    }
  }

  /** A failure of this thread is one of the connection, so that nobody waits for what will not be sent. */
  private void work() {
    try {
      sendAll();
    } catch (RuntimeException | Error e) {
      change(() -> refusal = "the thread that sends to " + settings.address() + " failed");
    }
  }

  private void sendAll() {
    while (!closing) {
      takeAnswers();
      takeStrangers();
      MqttAsyncClient client = link.current();
      Outbox.Letter letter = client == null ? null : nextLetter();
      if (letter == null) {
        LockSupport.parkNanos(this, RETRY);
      } else {
        send(client, letter);
      }
    }
  }

  private void takeAnswers() {
    if (answers.isEmpty()) {
      return;
    }
    change(() -> {
      for (Answer answer = answers.poll(); answer != null; answer = answers.poll()) {
        if (answer.code() >= FIRST_FAILURE) {
          refusal = settings.address() + " does not allow to publish to '" + answer.letter().topic() + "' (reason code "
              + answer.code() + ")";
        }
        outbox.acknowledged(answer.letter().number(), answer.time());
      }
      changed.signalAll();
    });
  }

  private void takeStrangers() {
    if (!strangers.isEmpty()) {
      change(() -> {
        refusal = refusal.isEmpty() ? notAlone() : refusal;
        changed.signalAll();
      });
    }
  }

  /** The next letter that the permit and the broker's receive maximum allow to send now; null if there is none. */
  private Outbox.Letter nextLetter() {
    return read(() -> strangers.isEmpty() && outbox.hasNext() && permit.refusal(outbox.nextTopic()).isEmpty()
        ? outbox.next() : null);
  }

  /**
   * Sends; what cannot be sent now is tried again. The library throws anything while its connection is being ended by
   * another thread.
   */
  private void send(MqttAsyncClient client, Outbox.Letter letter) {
    try {
      client.publish(letter.topic(), letter.toMessage(run), null, new Acknowledgement(letter));
    } catch (MqttException | RuntimeException e) {
      change(() -> outbox.notSent(letter));
      LockSupport.parkNanos(this, RETRY);
    }
  }

  private void change(Runnable change) {
    lock.lock();
    try {
      change.run();
    } finally {
      lock.unlock();
    }
  }

  private <T> T read(Supplier<T> what) {
    lock.lock();
    try {
      return what.get();
    } finally {
      lock.unlock();
    }
  }

  /** Messages not acknowledged yet. */
  public int unacknowledged() {
    return read(outbox::size);
  }

  public boolean isConnected() {
    return link.current() != null;
  }

  /** How often the connection was lost. */
  public long connectionsLost() {
    return read(() -> connectionsLost);
  }

  /** Messages sent again after a lost connection. */
  public long repeated() {
    return read(outbox::repeated);
  }

  /**
   * Says that nothing is meant to happen until the next message: meanwhile no time passes for how long acknowledgements
   * take.
   */
  public void hold() {
    change(() -> outbox.hold(clock.now()));
  }

  /** Longest time from handing over a message to its acknowledgement, in nanoseconds. */
  public long longestAcknowledgement() {
    return read(() -> outbox.delays().greatest());
  }

  @Override
  public void close() {
    link.close();
    closing = true;
    LockSupport.unpark(sender);
  }

  /** The broker's answer to one message. */
  private record Answer(Outbox.Letter letter, int code, long time) {}

  /** Notes the broker's answer to one message; takes no lock. */
  private final class Acknowledgement implements MqttActionListener {

    private final Outbox.Letter letter;

    Acknowledgement(Outbox.Letter letter) {
      this.letter = letter;
    }

    @Override
    public void onSuccess(IMqttToken token) {
      int[] codes = token.getReasonCodes();
      answers.add(new Answer(letter, codes == null || codes.length == 0 ? 0 : codes[0], clock.now()));
      LockSupport.unpark(sender);
    }

    @Override
    public void onFailure(IMqttToken token, Throwable failure) {
      // It stays in the outbox, and is sent again when the connection is up.
    }
  }

  /** What is done with each connection. */
  private final class Connected implements Link.User {

    @Override
    public void up(MqttAsyncClient client, int receiveMaximum) throws MqttException {
      Subscribing.to(claimed, AT_MOST_ONCE, client, settings, subscription -> subscription.setNoLocal(true));
      change(() -> outbox.startAnew(receiveMaximum));
    }

    @Override
    public void ready(boolean kept) {
      LockSupport.unpark(sender);
    }

    @Override
    public void lost(String detail, LongSupplier silence) {
      change(() -> connectionsLost++);
    }

    @Override
    public void arrived(MqttAsyncClient client, String topic, MqttMessage message) {
      // A broker that knows no "no local" sends the run's own messages, too.
      if (!Stamp.of(message.getProperties()).run().equals(run)) {
        strangers.heard(topic, message.isRetained());
        LockSupport.unpark(sender);
      }
    }
  }
}
