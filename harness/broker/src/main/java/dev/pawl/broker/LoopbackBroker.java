package dev.pawl.broker;

import com.codahale.metrics.Counter;
import com.hivemq.configuration.service.InternalConfigurations;
import com.hivemq.embedded.EmbeddedHiveMQ;
import com.hivemq.embedded.EmbeddedHiveMQBuilder;
import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.Optional;
import java.util.concurrent.CompletionException;
import java.util.function.BiPredicate;
import java.util.stream.Stream;

/** A broker in this process that listens on the loopback interface only, keeps nothing, and says nothing. */
public final class LoopbackBroker implements Closeable {

  /** The interface that it listens on. */
  public static final String HOST = "127.0.0.1";

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
  private final Counter dropped;

  private LoopbackBroker(Path folder, EmbeddedHiveMQ server) {
    this.folder = folder;
    this.server = server;
    this.dropped = server.getMetricRegistry().counter(DROPPED);
  }

  /**
   * Starts a broker. One at a time: the library hands its services to an extension by static fields.
   *
   * @param port TCP port of the loopback interface
   * @param bytesForSlowClient most memory for messages of quality 0 that wait for one client
   * @param right whether a user and a password are right; empty to let in everybody
   * @throws IOException if its folder cannot be prepared
   * @throws CompletionException if it does not start, as when the port is taken
   */
  public static synchronized LoopbackBroker start(int port, int bytesForSlowClient,
      Optional<BiPredicate<String, byte[]>> right) throws IOException {
    InternalConfigurations.QOS_0_MEMORY_LIMIT_PER_CLIENT_BYTES.set(bytesForSlowClient);
    Path folder = Files.createTempDirectory("pawl-broker");
    for (String part : new String[] {"conf", "data", "extensions"}) {
      Files.createDirectory(folder.resolve(part));
    }
    Files.writeString(folder.resolve("conf/config.xml"), CONFIGURATION.formatted(port, HOST));
    EmbeddedHiveMQBuilder builder = EmbeddedHiveMQ.builder().withConfigurationFolder(folder.resolve("conf"))
        .withDataFolder(folder.resolve("data")).withExtensionsFolder(folder.resolve("extensions"))
            .withoutLoggingBootstrap();
    right.ifPresent(known -> builder.withEmbeddedExtension(PasswordCheck.extension(known)));
    EmbeddedHiveMQ server = builder.build();
    server.start().join();
    return new LoopbackBroker(folder, server);
  }

  /** Messages dropped so far, of any client, because it took them too slowly. */
  public long dropped() {
    return dropped.getCount();
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
