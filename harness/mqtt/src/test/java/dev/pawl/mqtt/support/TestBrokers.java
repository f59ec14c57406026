package dev.pawl.mqtt.support;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** All brokers that tests run against. */
public final class TestBrokers {

  private TestBrokers() {}

  /** The embedded broker, and Mosquitto where it is installed; {@link MosquittoPresenceTest} shows where it is not. */
  public static List<TestBroker> start(Path folder) {
    List<TestBroker> brokers = new ArrayList<>();
    brokers.add(new Embedded());
    if (Mosquitto.isInstalled()) {
      brokers.add(Mosquitto.start(folder));
    }
    return brokers;
  }
}
