package dev.pawl.mqtt.client;

import java.util.List;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.eclipse.paho.mqttv5.common.packet.UserProperty;

/**
 * What the harness and its bench side write on their messages, as MQTT 5 user properties.
 *
 * @param run which run sent it; the empty string on foreign messages
 * @param sequence number of the message among those of the run on its topic, from 1; {@link Inbound#NO_NUMBER} where
 *     there is none
 * @param time nanoseconds, the trace time that the message stands for; {@link Inbound#NO_NUMBER} where there is none
 */
public record Stamp(String run, long sequence, long time) {

  public static final Stamp NONE = new Stamp("", Inbound.NO_NUMBER, Inbound.NO_NUMBER);

  private static final String RUN = "pawl-run";
  private static final String SEQUENCE = "pawl-seq";
  private static final String TIME = "pawl-time";
  private static final int LONGEST_RUN = 64;

  public boolean isNumbered() {
    return sequence != Inbound.NO_NUMBER;
  }

  public boolean isTimed() {
    return time != Inbound.NO_NUMBER;
  }

  List<UserProperty> toProperties() {
    UserProperty runProperty = new UserProperty(RUN, run);
    UserProperty sequenceProperty = new UserProperty(SEQUENCE, Long.toString(sequence));
    return isTimed() ? List.of(runProperty, sequenceProperty, new UserProperty(TIME, Long.toString(time)))
        : List.of(runProperty, sequenceProperty);
  }

  /** What the properties state; a property that cannot be understood counts as absent. */
  static Stamp of(MqttProperties properties) {
    if (properties == null || properties.getUserProperties().isEmpty()) {
      return NONE;
    }
    String run = "";
    long sequence = Inbound.NO_NUMBER;
    long time = Inbound.NO_NUMBER;
    for (UserProperty property : properties.getUserProperties()) {
      switch (property.getKey()) {
        case RUN -> run = property.getValue().length() <= LONGEST_RUN ? property.getValue() : "";
        case SEQUENCE -> sequence = number(property.getValue());
        case TIME -> time = number(property.getValue());
        default -> { }
      }
    }
    return new Stamp(run, sequence, time);
  }

  private static long number(String text) {
    try {
      return Long.parseLong(text);
    } catch (NumberFormatException e) {
      return Inbound.NO_NUMBER;
    }
  }
}
