package dev.pawl.mqtt.sparkplug;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload;
import org.eclipse.tahu.protobuf.SparkplugBProto.Payload.Metric;

/** What is known of one edge node's session: its names and aliases, its numbers, who of it is born. */
final class EdgeNode {

  static final String BIRTH_DEATH_NUMBER = "bdSeq";
  private static final int NUMBERS = 256;
  private static final long UNSTATED = -1;

  /** A metric that a birth named. */
  record Known(String device, String name, int type) {}

  /** What a sequence number says. */
  enum Order {
    NEXT,
    GAP,
    REPEATED,
    UNNUMBERED
  }

  private final Map<Long, Known> aliases = new HashMap<>();
  private final Map<String, Known> names = new HashMap<>();
  private final Set<String> bornDevices = new HashSet<>();
  private boolean born;
  private long birthDeathNumber = UNSTATED;
  private long lastSequence = UNSTATED;

  /** A node's birth starts everything anew. */
  void birth(Payload payload) {
    aliases.clear();
    names.clear();
    bornDevices.clear();
    born = true;
    birthDeathNumber = birthDeathNumber(payload);
    lastSequence = payload.hasSeq() ? payload.getSeq() : UNSTATED;
    learn("", payload);
  }

  void deviceBirth(String device, Payload payload) {
    bornDevices.add(device);
    learn(device, payload);
  }

  private void learn(String device, Payload payload) {
    for (Metric metric : payload.getMetricsList()) {
      Known known = new Known(device, metric.getName(), metric.getDatatype());
      names.put(device + "\0" + metric.getName(), known);
      if (metric.hasAlias()) {
        aliases.put(metric.getAlias(), known);
      }
    }
  }

  /** Whether a death message belongs to the present session. */
  boolean isDeathOf(Payload payload) {
    long number = birthDeathNumber(payload);
    return birthDeathNumber == UNSTATED || number == UNSTATED || number == birthDeathNumber;
  }

  void death() {
    born = false;
    bornDevices.clear();
    lastSequence = UNSTATED;
  }

  void deviceDeath(String device) {
    bornDevices.remove(device);
  }

  boolean isBorn(String device) {
    return born && (device.isEmpty() || bornDevices.contains(device));
  }

  boolean isNodeBorn() {
    return born;
  }

  /** Takes the sequence number of a message after the birth. */
  Order order(Payload payload) {
    if (!payload.hasSeq()) {
      return Order.UNNUMBERED;
    }
    long previous = lastSequence;
    long sequence = payload.getSeq();
    if (sequence == previous) {
      return Order.REPEATED;
    }
    lastSequence = sequence;
    return previous == UNSTATED || sequence == (previous + 1) % NUMBERS ? Order.NEXT : Order.GAP;
  }

  long lastSequence() {
    return lastSequence;
  }

  /** What a metric in a data message is; null if no birth has named it. */
  Known known(String device, Metric metric) {
    return metric.hasName() && !metric.getName().isEmpty() ? names.get(device + "\0" + metric.getName())
        : metric.hasAlias() ? aliases.get(metric.getAlias()) : null;
  }

  private static long birthDeathNumber(Payload payload) {
    for (Metric metric : payload.getMetricsList()) {
      if (metric.getName().equals(BIRTH_DEATH_NUMBER)) {
        return metric.hasLongValue() ? metric.getLongValue() : Integer.toUnsignedLong(metric.getIntValue());
      }
    }
    return UNSTATED;
  }
}
