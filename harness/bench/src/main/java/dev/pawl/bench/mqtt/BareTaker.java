package dev.pawl.bench.mqtt;

import dev.pawl.mqtt.client.BrokerAddress;
import java.nio.charset.StandardCharsets;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/** The client library alone: hears, and does nothing else. */
final class BareTaker implements Taker, MqttCallback {

  private final MqttAsyncClient client;
  private final Heard heard;

  BareTaker(BrokerAddress broker, String topic, int quality, Heard heard) throws MqttException {
    this.heard = heard;
    this.client = new MqttAsyncClient("tcp://" + broker.host() + ":" + broker.port(), "bare", new MemoryPersistence());
    client.setCallback(this);
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setSocketFactory(new PromptSockets());
    client.connect(options).waitForCompletion(10_000);
    client.subscribe(topic, quality).waitForCompletion(10_000);
  }

  @Override
  public void messageArrived(String topic, MqttMessage message) {
    heard.number(Integer.parseInt(new String(message.getPayload(), StandardCharsets.US_ASCII)), System.nanoTime());
  }

  @Override
  public void close() throws MqttException {
    client.disconnectForcibly(0, 500, false);
    client.close(true);
  }

  @Override
  public void disconnected(MqttDisconnectResponse response) {
    // What does not arrive is counted.
  }

  @Override
  public void mqttErrorOccurred(MqttException exception) {
    // What does not arrive is counted.
  }

  @Override
  public void deliveryComplete(IMqttToken token) {
    // It sends nothing.
  }

  @Override
  public void connectComplete(boolean again, String address) {
    // It is waited for above.
  }

  @Override
  public void authPacketArrived(int reason, MqttProperties properties) {
    // There is no such exchange.
  }
}
