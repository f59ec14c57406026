package dev.pawl.mqtt.client;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Topics on which others were heard that one run alone should publish to. Written and read by any thread. */
final class Strangers {

  private static final int MOST_NAMED = 8;

  /** By topic: whether the broker had kept the first message from earlier. */
  private final Map<String, Boolean> heard = new TreeMap<>();

  synchronized void heard(String topic, boolean kept) {
    heard.putIfAbsent(topic, kept);
  }

  synchronized boolean isEmpty() {
    return heard.isEmpty();
  }

  /** What was heard, in words; empty if nothing was. */
  synchronized String text() {
    if (heard.isEmpty()) {
      return "";
    }
    List<String> named = heard.entrySet().stream().limit(MOST_NAMED)
        .map(topic -> topic.getKey() + (topic.getValue() ? " (kept by the broker from earlier)" : "")).toList();
    int more = heard.size() - named.size();
    return String.join(", ", named) + (more > 0 ? " and " + more + " more" : "");
  }
}
