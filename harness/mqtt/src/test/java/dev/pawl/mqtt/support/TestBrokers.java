package dev.pawl.mqtt.support;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** All brokers that tests run against, started once for all tests. */
public final class TestBrokers {

  private static final List<TestBroker> ALL = start();

  private TestBrokers() {}

  /** The embedded broker, and Mosquitto where it is installed; {@link MosquittoPresenceTest} shows where it is not. */
  public static List<TestBroker> all() {
    return ALL;
  }

  public static TestBroker embedded() {
    return ALL.get(0);
  }

  private static List<TestBroker> start() {
    List<TestBroker> brokers = new ArrayList<>();
    brokers.add(new Embedded());
    if (Mosquitto.isInstalled()) {
      try {
        brokers.add(Mosquitto.start(Files.createTempDirectory("pawl-mosquitto")));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    Runtime.getRuntime().addShutdownHook(new Thread(() -> brokers.forEach(TestBroker::close)));
    return List.copyOf(brokers);
  }
}
