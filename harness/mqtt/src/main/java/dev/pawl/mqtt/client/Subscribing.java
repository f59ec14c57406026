package dev.pawl.mqtt.client;

import java.util.List;
import java.util.function.Consumer;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttSubscription;

/** Subscribes a client to topics, and says which the broker does not allow. */
final class Subscribing {

  private static final int GREATEST_QUALITY = 2;

  private Subscribing() {}

  /**
   * Subscribes, and waits for the broker's answer.
   *
   * @param refine sets what a subscription asks for beyond its topic and quality
   * @throws ConnectionTrouble if the broker does not allow to listen to one of the topics
   */
  static void to(List<String> topics, int quality, MqttAsyncClient client, ConnectionSettings settings,
      Consumer<MqttSubscription> refine)
      throws MqttException {
    if (topics.isEmpty()) {
      return;
    }
    MqttSubscription[] subscriptions = topics.stream().map(topic -> new MqttSubscription(topic, quality))
        .toArray(MqttSubscription[]::new);
    for (MqttSubscription subscription : subscriptions) {
      refine.accept(subscription);
    }
    IMqttToken token = client.subscribe(subscriptions);
    token.waitForCompletion(ConnectionSettings.PATIENCE.toMillis());
    int[] granted = token.getReasonCodes();
    for (int i = 0; granted != null && i < granted.length; i++) {
      if (granted[i] > GREATEST_QUALITY && !topics.get(i).equals(ListeningConnection.DROPS_TOPIC)) {
        throw new ConnectionTrouble(settings.address() + " does not allow to listen to '" + topics.get(i) + "'");
      }
    }
  }
}
