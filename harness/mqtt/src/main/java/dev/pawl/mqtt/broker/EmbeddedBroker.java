package dev.pawl.mqtt.broker;

import com.codahale.metrics.Counter;
import com.hivemq.configuration.service.InternalConfigurations;
import com.hivemq.embedded.EmbeddedHiveMQ;
import com.hivemq.embedded.EmbeddedHiveMQBuilder;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.client.Credentials;
import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.Optional;
import java.util.concurrent.CompletionException;
import java.util.stream.Stream;

/**
 * A broker in this process that listens on the loopback interface only, keeps nothing, and says nothing.
 *
 * <p>Messages of quality 0 that a client takes too slowly wait in memory, up to a quarter of all that this process may use; what does not
 * fit is dropped, and counted.
 */
public final class EmbeddedBroker implements Closeable {

  private static final String LOOPBACK = "127.0.0.1";
  private static final String DROPPED = "com.hivemq.messages.dropped.count";
  private static final String CONFIGURATION = """
      <?xml version="1.0"?>
      <hivemq>
        <listeners>
          <tcp-listener><port>%d</port><bind-address>%s</bind-address></tcp-listener>
        </listeners>
        <mqtt>
          <queued-messages><max-queue-size>1000000</max-queue-size><strategy>discard</strategy></queued-messages>
          <receive-maximum><server-receive-maximum>1000</server-receive-maximum></receive-maximum>
        </mqtt>
        <persistence><mode>in-memory</mode></persistence>
        <anonymous-usage-statistics><enabled>false</enabled></anonymous-usage-statistics>
      </hivemq>
      """;

  private final Path folder;
  private final EmbeddedHiveMQ server;
  private final BrokerAddress address;
  private final Optional<Credentials> credentials;
  private final Counter dropped;

  private EmbeddedBroker(Path folder, EmbeddedHiveMQ server, BrokerAddress address, Optional<Credentials> credentials) {
    this.folder = folder;
    this.server = server;
    this.address = address;
    this.credentials = credentials;
    this.dropped = server.getMetricRegistry().counter(DROPPED);
  }

  /**
   * Starts a broker on a free port.
   *
   * @throws ConnectionTrouble if it does not start
   */
  public static EmbeddedBroker start() {
    return start(freePort());
  }

  /**
   * Starts a broker on the given port of the loopback interface.
   *
   * @throws ConnectionTrouble if it does not start
   */
  public static EmbeddedBroker start(int port) {
    return start(port, Integer.MAX_VALUE);
  }

  /**
   * Starts a broker that lets in only clients which state the credentials, where there are some; all clients otherwise.
   *
   * @param port port of the loopback interface; 0 for a free one
   * @throws ConnectionTrouble if it does not start
   */
  public static EmbeddedBroker start(int port, Optional<Credentials> credentials) {
    return start(port == 0 ? freePort() : port, Integer.MAX_VALUE, credentials);
  }

  /**
   * Starts a broker that bears with slow clients for so long only.
   *
   * @param bytesForSlowClient most memory for messages of quality 0 that wait for one client. What the library has by itself, 5 MiB, is some
   *     ten thousand short messages, a third of a second of a fast sender
   * @throws ConnectionTrouble if it does not start
   */
  public static EmbeddedBroker start(int port, int bytesForSlowClient) {
    return start(port, bytesForSlowClient, Optional.empty());
  }

  /** One at a time: the library hands its services to an extension by static fields. */
  private static synchronized EmbeddedBroker start(int port, int bytesForSlowClient, Optional<Credentials> credentials) {
    InternalConfigurations.QOS_0_MEMORY_LIMIT_PER_CLIENT_BYTES.set(bytesForSlowClient);
    try {
      Path folder = Files.createTempDirectory("pawl-broker");
      for (String part : new String[] {"conf", "data", "extensions"}) {
        Files.createDirectory(folder.resolve(part));
      }
      Files.writeString(folder.resolve("conf/config.xml"), CONFIGURATION.formatted(port, LOOPBACK));
      EmbeddedHiveMQBuilder builder = EmbeddedHiveMQ.builder().withConfigurationFolder(folder.resolve("conf"))
          .withDataFolder(folder.resolve("data")).withExtensionsFolder(folder.resolve("extensions")).withoutLoggingBootstrap();
      credentials.ifPresent(known -> builder.withEmbeddedExtension(Doorkeeper.extension(known)));
      EmbeddedHiveMQ server = builder.build();
      server.start().join();
      return new EmbeddedBroker(folder, server, new BrokerAddress(false, LOOPBACK, port), credentials);
    } catch (IOException e) {
      throw new ConnectionTrouble("the embedded broker cannot prepare its folder: " + e.getMessage(), e);
    } catch (CompletionException e) {
      throw new ConnectionTrouble("the embedded broker does not start on port " + port + "; is the port taken?", e);
    }
  }

  private static int freePort() {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getByName(LOOPBACK))) {
      return socket.getLocalPort();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Messages dropped so far, of any client, because it took them too slowly. */
  public long dropped() {
    return dropped.getCount();
  }

  /** What clients have to state; empty if all are let in. */
  public Optional<Credentials> credentials() {
    return credentials;
  }

  /** Where clients find it. */
  public BrokerAddress address() {
    return address;
  }

  @Override
  public void close() {
    server.stop().join();
    try (Stream<Path> files = Files.walk(folder)) {
      files.sorted(Comparator.reverseOrder()).forEach(file -> file.toFile().delete());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
