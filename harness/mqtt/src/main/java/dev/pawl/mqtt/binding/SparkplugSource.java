package dev.pawl.mqtt.binding;

import java.util.Optional;

/**
 * A Sparkplug edge node, or a device behind it.
 *
 * @param group group identifier
 * @param node edge node identifier
 * @param device device identifier; the empty string for the node itself
 */
public record SparkplugSource(String group, String node, String device) {

  public static final String NAMESPACE = "spBv1.0";

  /** Reads {@code group/node} or {@code group/node/device}; empty if it is neither. */
  public static Optional<SparkplugSource> parse(String text) {
    String[] parts = text.split("/", -1);
    boolean sound = (parts.length == 2 || parts.length == 3) && !text.contains("+") && !text.contains("#");
    for (String part : parts) {
      sound = sound && !part.isEmpty();
    }
    return sound ? Optional.of(new SparkplugSource(parts[0], parts[1], parts.length == 3 ? parts[2] : ""))
        : Optional.empty();
  }

  public boolean isDevice() {
    return !device.isEmpty();
  }

  /** The node that this is, or is behind. */
  public SparkplugSource edge() {
    return new SparkplugSource(group, node, "");
  }

  /** Topic filters for all messages from the node: its own and its devices'. */
  public String nodeFilter() {
    return NAMESPACE + "/" + group + "/+/" + node;
  }

  public String deviceFilter() {
    return nodeFilter() + "/+";
  }

  /** Topic by which a host writes to it. */
  public String commandTopic() {
    String type = isDevice() ? "DCMD" : "NCMD";
    return NAMESPACE + "/" + group + "/" + type + "/" + node + (isDevice() ? "/" + device : "");
  }

  @Override
  public String toString() {
    return group + "/" + node + (isDevice() ? "/" + device : "");
  }
}
