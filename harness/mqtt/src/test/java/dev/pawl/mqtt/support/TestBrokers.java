package dev.pawl.mqtt.support;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

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

  /** What a test does with a broker. */
  public interface Use {
    void with(TestBroker broker) throws Exception;
  }

  /** Does the same with every broker at the same time: for tests that mostly wait. */
  public static void each(Use use) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(ALL.size());
    try {
      List<Future<?>> futures = new ArrayList<>();
      for (TestBroker broker : ALL) {
        futures.add(pool.submit(() -> {
          use.with(broker);
          return null;
        }));
      }
      for (int i = 0; i < futures.size(); i++) {
        try {
          futures.get(i).get();
        } catch (ExecutionException e) {
          throw new AssertionError("over " + ALL.get(i), e.getCause());
        }
      }
    } finally {
      pool.shutdownNow();
    }
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
