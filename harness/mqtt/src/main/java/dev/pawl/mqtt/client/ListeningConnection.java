package dev.pawl.mqtt.client;

import java.io.Closeable;
import java.util.List;
import java.util.Optional;
import java.util.function.LongSupplier;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;

/**
 * A connection that can only listen. It has no method to send a message and no will, and its socket lets none through
 * ({@link ReceiveOnlyStream}).
 *
 * <p>Messages are acknowledged by the {@link InboundQueue} that takes them.
 */
public final class ListeningConnection implements Closeable {

  /**
   * Where some brokers tell how many messages they have dropped; not part of the standard, so that a refusal of it
   * matters nothing.
   */
  public static final String DROPS_TOPIC = "$SYS/broker/publish/messages/dropped";

  private static final int AT_LEAST_ONCE = 1;

  private final Link link;

  /**
   * Connects, subscribes and puts all that comes into the queue.
   *
   * @param topics topic filters
   * @throws ConnectionTrouble if the first connection fails; later ones are made again by themselves
   */
  public ListeningConnection(ConnectionSettings settings, List<String> topics, InboundQueue queue) {
    this(settings, topics, queue, false);
  }

  private ListeningConnection(ConnectionSettings settings, List<String> topics, InboundQueue queue,
      boolean asPublished) {
    this.link = new Link(settings, PacketRule.RECEIVE_ONLY, Optional.empty(),
        new Intake(settings, List.copyOf(topics), queue, asPublished));
    link.open();
  }

  /**
   * The same, but that {@link Inbound.Message#retained} says whether a message was sent to be kept (MQTT 5, retain as
   * published), not whether it had been kept when this side began to listen.
   */
  public static ListeningConnection asPublished(ConnectionSettings settings, List<String> topics, InboundQueue queue) {
    return new ListeningConnection(settings, topics, queue, true);
  }

  /** Gives the connection up, with all that is on the way to it, and makes it anew: a gap with a known place. */
  public void renew() {
    link.renew("made anew, since the broker had dropped messages");
  }

  /** Nanoseconds since the last sign of life: what may have come after it is not known. */
  public long silence() {
    return link.silence();
  }

  /** Asks the broker for a sign of life; it is asked now and then anyway. */
  public void askForLife() {
    link.askForLife();
  }

  /**
   * Does nothing as long as the connection is kept up, and its end told.
   *
   * @throws ConnectionTrouble if it is not
   */
  public void requireKept() {
    link.requireKept();
  }

  /**
   * Asks the broker for its count of dropped messages, by listening to it again.
   *
   * @return whether the connection is up, so that an answer may come
   */
  public boolean askForDrops() {
    MqttAsyncClient client = link.current();
    try {
      if (client != null) {
        client.subscribe(DROPS_TOPIC, AT_LEAST_ONCE);
      }
      return client != null;
    } catch (MqttException e) {
      return false;
    }
  }

  @Override
  public void close() {
    link.close();
  }

  /** What is done with each connection. */
  private record Intake(ConnectionSettings settings, List<String> topics, InboundQueue queue, boolean asPublished)
      implements Link.User {

    @Override
    public void up(MqttAsyncClient client, int receiveMaximum) throws MqttException {
      Subscribing.to(topics, AT_LEAST_ONCE, client, settings,
          subscription -> subscription.setRetainAsPublished(asPublished));
    }

    @Override
    public void ready(boolean kept) {
      String address = settings.address().toString();
      queue.put(arrival -> kept ? new Inbound.Resumed(address, arrival) : new Inbound.Connected(address, arrival));
    }

    @Override
    public void lost(String detail, LongSupplier silence) {
      queue.putLost(detail, silence);
    }

    @Override
    public void arrived(MqttAsyncClient client, String topic, MqttMessage message) {
      Stamp stamp = Stamp.of(message.getProperties());
      Long expiry = message.getProperties() == null ? null : message.getProperties().getMessageExpiryInterval();
      int id = message.getId();
      int qos = message.getQos();
      byte[] payload = message.getPayload();
      queue.putMessage(payload.length, arrival -> new Inbound.Message(topic, payload, message.isRetained(), stamp,
          expiry == null ? Inbound.NO_NUMBER : expiry, arrival), qos == 0 ? Optional.empty()
              : Optional.of(() -> acknowledge(client, id, qos)));
    }

    private static void acknowledge(MqttAsyncClient client, int id, int qos) {
      try {
        client.messageArrivedComplete(id, qos);
      } catch (MqttException | RuntimeException e) {
        // The connection it came by is gone; the broker will send it again, or has given it up with the session.
      }
    }
  }
}
