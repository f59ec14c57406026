package dev.pawl.mqtt.support;

import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.station.Station;
import dev.pawl.mqtt.time.HarnessClock;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import org.awaitility.Awaitility;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.eclipse.paho.mqttv5.common.packet.UserProperty;

/** A bench side on a thread of its own, and what a person does at the bench. */
public final class Bench implements AutoCloseable {

  private final Thread thread;
  private final BenchGuard guard;
  private volatile boolean stop;
  private volatile Throwable failure;

  private Bench(Station station, TestBroker broker, String name, HarnessClock clock) {
    ConnectionSettings settings = ConnectionSettings.of(broker.address(), "bench").withKeepAlive(Duration.ofSeconds(2));
    guard = new BenchGuard(settings.withClientId("bench-guard"), name, clock, Duration.ofSeconds(5));
    thread = new Thread(() -> {
      try {
        station.run(settings, guard, Duration.ZERO, () -> { }, () -> stop);
      } catch (InterruptedException | RuntimeException e) {
        failure = e;
      }
    }, "test-bench");
    thread.start();
  }

  /** Serves until closed; returns once its inputs are subscribed to. */
  public static Bench serve(Station station, TestBroker broker, String name, HarnessClock clock) {
    Bench bench = new Bench(station, broker, name, clock);
    Awaitility.await().atMost(Duration.ofSeconds(15)).pollInterval(Duration.ofMillis(10))
        .until(() -> station.isServing() || bench.failure != null);
    return bench;
  }

  /** A person puts up the marker for an hour. */
  public static void putUpMarker(TestBroker broker, String name) {
    send(broker, BenchGuard.TOPIC, name, true, 3600L);
  }

  /** Sends one message of MQTT 5. */
  public static void send(TestBroker broker, String topic, String text, boolean retain, Long expiry,
      UserProperty... stamp) {
    try {
      MqttAsyncClient client = new MqttAsyncClient("tcp://" + broker.address().host() + ":" + broker.address().port(),
          "person", new MemoryPersistence());
      MqttConnectionOptions options = new MqttConnectionOptions();
      client.connect(options).waitForCompletion(10_000);
      MqttMessage message = new MqttMessage(text.getBytes(StandardCharsets.UTF_8));
      message.setQos(1);
      message.setRetained(retain);
      MqttProperties properties = new MqttProperties();
      properties.setMessageExpiryInterval(expiry);
      properties.setUserProperties(List.of(stamp));
      message.setProperties(properties);
      client.publish(topic, message).waitForCompletion(10_000);
      client.disconnect().waitForCompletion(10_000);
      client.close();
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    stop = true;
    try {
      thread.join(15_000);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    guard.close();
    if (failure != null) {
      throw new AssertionError(failure);
    }
  }
}
