package dev.pawl.mqtt.broker;

import com.hivemq.embedded.EmbeddedHiveMQ;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionTrouble;
import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.concurrent.CompletionException;
import java.util.stream.Stream;

/** A broker in this process that listens on the loopback interface only, keeps nothing, and says nothing. */
public final class EmbeddedBroker implements Closeable {

  private static final String LOOPBACK = "127.0.0.1";
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

  private EmbeddedBroker(Path folder, EmbeddedHiveMQ server, BrokerAddress address) {
    this.folder = folder;
    this.server = server;
    this.address = address;
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
    try {
      Path folder = Files.createTempDirectory("pawl-broker");
      for (String part : new String[] {"conf", "data", "extensions"}) {
        Files.createDirectory(folder.resolve(part));
      }
      Files.writeString(folder.resolve("conf/config.xml"), CONFIGURATION.formatted(port, LOOPBACK));
      EmbeddedHiveMQ server = EmbeddedHiveMQ.builder().withConfigurationFolder(folder.resolve("conf"))
          .withDataFolder(folder.resolve("data")).withExtensionsFolder(folder.resolve("extensions")).withoutLoggingBootstrap().build();
      server.start().join();
      return new EmbeddedBroker(folder, server, new BrokerAddress(false, LOOPBACK, port));
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
