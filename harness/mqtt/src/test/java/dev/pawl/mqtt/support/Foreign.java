package dev.pawl.mqtt.support;

import dev.pawl.mqtt.client.BrokerAddress;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;

/** A client of MQTT 3.1.1 that knows nothing of the harness. */
public final class Foreign implements MqttCallback, AutoCloseable {

  /** What came in. */
  public record Received(String topic, String text, boolean retained) {}

  private final MqttAsyncClient client;
  private int hurled;
  private final BlockingQueue<Received> received = new LinkedBlockingQueue<>();

  public Foreign(BrokerAddress address, String id) {
    try {
      client = new MqttAsyncClient("tcp://" + address.host() + ":" + address.port(), id, new MemoryPersistence());
      client.setCallback(this);
      MqttConnectOptions options = new MqttConnectOptions();
      options.setMqttVersion(MqttConnectOptions.MQTT_VERSION_3_1_1);
      options.setMaxInflight(1000);
      client.connect(options).waitForCompletion(10_000);
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
  }

  public Foreign listen(String... filters) {
    try {
      for (String filter : filters) {
        client.subscribe(filter, 1).waitForCompletion(10_000);
      }
      return this;
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Sends at the given quality and waits for the broker's answer. */
  public void send(String topic, String text, int quality, boolean retained) {
    send(topic, text.getBytes(StandardCharsets.UTF_8), quality, retained);
  }

  public void send(String topic, byte[] payload, int quality, boolean retained) {
    try {
      client.publish(topic, payload, quality, retained).waitForCompletion(10_000);
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Sends at quality 0 and waits for nothing but every 500th to have left. */
  public void hurl(String topic, String text) {
    try {
      IMqttDeliveryToken token = client.publish(topic, text.getBytes(StandardCharsets.UTF_8), 0, false);
      if (++hurled % 500 == 0) {
        token.waitForCompletion(10_000);
      }
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
  }

  public void send(String topic, String text) {
    send(topic, text, 1, false);
  }

  /** The next message; null if none comes in time. */
  public Received next(long milliseconds) {
    try {
      return received.poll(milliseconds, TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return null;
    }
  }

  public int waiting() {
    return received.size();
  }

  @Override
  public void messageArrived(String topic, MqttMessage message) {
    received.add(new Received(topic, new String(message.getPayload(), StandardCharsets.UTF_8), message.isRetained()));
  }

  @Override
  public void connectionLost(Throwable cause) {
    received.add(new Received("", "connection lost", false));
  }

  @Override
  public void deliveryComplete(IMqttDeliveryToken token) {
    // Sending waits for it already.
  }

  @Override
  public void close() {
    try {
      client.disconnectForcibly(0, 500);
      client.close(true);
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
  }
}
