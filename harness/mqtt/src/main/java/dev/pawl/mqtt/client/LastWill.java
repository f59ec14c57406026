package dev.pawl.mqtt.client;

import java.nio.charset.StandardCharsets;
import org.eclipse.paho.mqttv5.common.MqttMessage;

/**
 * What the broker tells others when this client vanishes without a farewell.
 *
 * @param topic where
 * @param text what
 */
public record LastWill(String topic, String text) {

  MqttMessage toMessage() {
    MqttMessage message = new MqttMessage(text.getBytes(StandardCharsets.UTF_8));
    message.setQos(1);
    return message;
  }
}
