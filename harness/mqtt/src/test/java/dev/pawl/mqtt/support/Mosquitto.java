package dev.pawl.mqtt.support;

import dev.pawl.mqtt.client.BrokerAddress;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.awaitility.Awaitility;

/** Debian's broker as a process on a free loopback port, and its command-line clients. */
public final class Mosquitto implements TestBroker {

  private static final String LOOPBACK = "127.0.0.1";

  private final Path folder;
  private final int port;
  private final boolean secure;
  private Process process;

  private Mosquitto(Path folder, int port, boolean secure) {
    this.folder = folder;
    this.port = port;
    this.secure = secure;
  }

  /** Whether the broker and its clients are on this machine; {@code .ci/run} installs them. */
  public static boolean isInstalled() {
    boolean broker = Stream.of("/usr/sbin/mosquitto", "/usr/bin/mosquitto", "/usr/local/sbin/mosquitto")
        .anyMatch(p -> Files.isExecutable(Path.of(p)));
    boolean clients = Stream.of("/usr/bin/mosquitto_pub", "/usr/local/bin/mosquitto_pub")
        .anyMatch(p -> Files.isExecutable(Path.of(p)));
    return broker && clients;
  }

  /** Starts it open to all on loopback, with further lines of configuration. */
  public static Mosquitto start(Path folder, String... lines) {
    return start(folder, false, true, lines);
  }

  /** Starts it with a listener whose configuration the lines complete. */
  public static Mosquitto start(Path folder, boolean secure, boolean anonymous, String... lines) {
    int port = Ports.free();
    List<String> configuration = new ArrayList<>(List.of("listener " + port + " " + LOOPBACK, "allow_anonymous "
        + anonymous, "max_queued_messages 0", "set_tcp_nodelay true", "persistence false", "user root"));
    configuration.addAll(List.of(lines));
    try {
      Files.write(folder.resolve("broker.conf"), configuration);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Mosquitto broker = new Mosquitto(folder, port, secure);
    broker.restart();
    return broker;
  }

  @Override
  public BrokerAddress address() {
    return new BrokerAddress(secure, secure ? "localhost" : LOOPBACK, port);
  }

  @Override
  public void kill() {
    process.destroyForcibly();
    try {
      process.waitFor();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Override
  public void restart() {
    try {
      String program = new File("/usr/sbin/mosquitto").exists() ? "/usr/sbin/mosquitto" : "mosquitto";
      process = new ProcessBuilder(program, "-c", folder.resolve("broker.conf").toString()).redirectErrorStream(true)
          .redirectOutput(folder.resolve("broker.log").toFile()).start();
    } catch (IOException e) {
      throw new IllegalStateException("these tests need Debian's packages mosquitto and mosquitto-clients", e);
    }
    Awaitility.await().atMost(Duration.ofSeconds(10)).pollInterval(Duration.ofMillis(20)).until(this::answers);
  }

  private boolean answers() {
    try (Socket socket = new Socket()) {
      socket.connect(new InetSocketAddress(LOOPBACK, port), 200);
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  /** Runs a command-line client to its end; fails if that is not a success. */
  public String command(String program, String... arguments) {
    try {
      Process client = begin(program, arguments);
      String output;
      try (InputStream stream = client.getInputStream()) {
        output = new String(stream.readAllBytes(), StandardCharsets.UTF_8);
      }
      if (!client.waitFor(20, TimeUnit.SECONDS) || client.exitValue() != 0) {
        throw new AssertionError(program + " failed: " + output);
      }
      return output;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  /** Starts a command-line client. */
  public Process begin(String program, String... arguments) throws IOException {
    List<String> words = new ArrayList<>(List.of(program, "-h", LOOPBACK, "-p", Integer.toString(port)));
    words.addAll(List.of(arguments));
    return new ProcessBuilder(words).redirectErrorStream(true).start();
  }

  /** What the broker logged. */
  public String log() {
    try {
      return Files.readString(folder.resolve("broker.log"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() {
    kill();
  }

  @Override
  public String toString() {
    return "mosquitto";
  }
}
