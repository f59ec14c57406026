package dev.pawl.mqtt.binding;

import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** What a message's topic can be (MQTT 5, 4.7.3 and 1.5.4). */
public final class TopicName {

  private static final int LONGEST = 65535;

  private TopicName() {}

  /** Why no message can have this topic, in words for the user; empty if one can. */
  public static Optional<String> problem(String text) {
    int bytes = text.getBytes(StandardCharsets.UTF_8).length;
    if (text.isEmpty()) {
      return Optional.of("a topic is not empty");
    } else if (bytes > LONGEST) {
      return Optional.of("this topic has " + bytes + " bytes; a topic has at most " + LONGEST);
    } else if (text.indexOf('+') >= 0 || text.indexOf('#') >= 0) {
      return Optional.of("this topic has + or # in it, which no message's topic has");
    } else if (text.codePoints().anyMatch(c -> Character.isISOControl(c)
        || Character.getType(c) == Character.SURROGATE)) {
      return Optional.of("this topic has a character in it that cannot be seen, for which brokers may close the"
          + " connection");
    }
    return Optional.empty();
  }
}
