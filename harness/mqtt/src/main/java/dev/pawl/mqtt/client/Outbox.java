package dev.pawl.mqtt.client;

import dev.pawl.mqtt.time.Distribution;
import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/**
 * Messages that the broker has not acknowledged, in order of their numbers; some are on the way, the later ones wait.
 */
final class Outbox {

  /** The broker keeps the message as long as it wants to. */
  static final long FOR_EVER = -1;

  private static final long NOT_HELD = Long.MAX_VALUE;

  /**
   * One message.
   *
   * @param number its number among all
   * @param topicNumber its number among those on its topic
   */
  record Letter(long number, long topicNumber, String topic, byte[] payload, boolean retain, long time,
      long lifeSeconds,
      long handedOver) {

    Letter handedOverAt(long moment) {
      return new Letter(number, topicNumber, topic, payload, retain, time, lifeSeconds, moment);
    }

    /** The library's form of it, stamped with the run's name. */
    MqttMessage toMessage(String run) {
      MqttMessage message = new MqttMessage(payload);
      message.setQos(1);
      message.setRetained(retain);
      MqttProperties properties = new MqttProperties();
      properties.setUserProperties(new Stamp(run, topicNumber, time).toProperties());
      if (lifeSeconds != FOR_EVER) {
        properties.setMessageExpiryInterval(lifeSeconds);
      }
      message.setProperties(properties);
      return message;
    }
  }

  private final TreeMap<Long, Letter> letters = new TreeMap<>();
  private final Map<String, Long> topicNumbers = new HashMap<>();
  private final Distribution delays = new Distribution();
  private long heldSince = NOT_HELD;
  private long lastNumber;
  private long lastSent;
  private long sentOnce;
  private int onTheWay;
  private int mostOnTheWay = 1;
  private long repeated;

  /** Adds a message, to be sent after all others; returns its number. */
  long add(String topic, byte[] payload, boolean retain, long time, long lifeSeconds, long now) {
    release(now);
    long number = ++lastNumber;
    long topicNumber = topicNumbers.merge(topic, 1L, Long::sum);
    letters.put(number, new Letter(number, topicNumber, topic, payload, retain, time, lifeSeconds, now));
    return number;
  }

  /** Whether a message waits that may be sent now. */
  boolean hasNext() {
    return onTheWay < mostOnTheWay && letters.higherKey(lastSent) != null;
  }

  /** Topic of the next message. */
  String nextTopic() {
    return letters.higherEntry(lastSent).getValue().topic();
  }

  /** The next message; it is on the way from now on. */
  Letter next() {
    Letter letter = letters.higherEntry(lastSent).getValue();
    lastSent = letter.number();
    if (lastSent <= sentOnce) {
      repeated++;
    }
    sentOnce = Math.max(sentOnce, lastSent);
    onTheWay++;
    return letter;
  }

  /** The last message that {@link #next} gave could not be sent; it is the next again. */
  void notSent(Letter letter) {
    if (letter.number() == lastSent) {
      lastSent = letter.number() - 1;
      onTheWay--;
    }
  }

  /** Takes a message out for good. */
  void acknowledged(long number, long now) {
    Letter letter = letters.remove(number);
    if (letter != null) {
      delays.add(now - letter.handedOver() - held(letter, now));
      onTheWay--;
    }
  }

  /** Nothing is on the way any more: all that is here has to be sent again. */
  void startAnew(int receiveMaximum) {
    lastSent = 0;
    onTheWay = 0;
    mostOnTheWay = Math.max(1, receiveMaximum);
  }

  /** From now until the next message is added no time passes for how long an acknowledgement takes. */
  void hold(long now) {
    heldSince = Math.min(heldSince, now);
  }

  private void release(long now) {
    if (heldSince != NOT_HELD) {
      letters.replaceAll((number, letter) -> letter.handedOverAt(letter.handedOver() + held(letter, now)));
      heldSince = NOT_HELD;
    }
  }

  private long held(Letter letter, long now) {
    return Math.max(0, now - Math.max(heldSince, letter.handedOver()));
  }

  int size() {
    return letters.size();
  }

  long repeated() {
    return repeated;
  }

  /** Times from handing over to acknowledgement. */
  Distribution delays() {
    return delays;
  }
}
