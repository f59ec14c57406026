package dev.pawl.bench.mqtt;

import dev.pawl.mqtt.client.BrokerAddress;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Debian's broker as a process on a free loopback port. */
record Mosquitto(Process process, Path configuration, BrokerAddress address) implements AutoCloseable {

  private static final String LOOPBACK = "127.0.0.1";
  private static final int MOST_TRIES = 200;

  /** Starts it where it is installed. */
  static Optional<Mosquitto> start() throws IOException, InterruptedException {
    Optional<String> program = Stream.of("/usr/sbin/mosquitto", "/usr/bin/mosquitto", "/usr/local/sbin/mosquitto")
        .filter(p -> Files.isExecutable(Path.of(p))).findFirst();
    if (program.isEmpty()) {
      return Optional.empty();
    }
    int port;
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getByName(LOOPBACK))) {
      port = socket.getLocalPort();
    }
    Path file = Files.createTempFile("pawl-bench", ".conf");
    Files.write(file, List.of("listener " + port + " " + LOOPBACK, "allow_anonymous true", "max_queued_messages 0",
        "max_inflight_messages 1000", "set_tcp_nodelay true", "persistence false", "user root"));
    Process process = new ProcessBuilder(program.get(), "-c", file.toString()).redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD).start();
    for (int tries = 0; !answers(port); tries++) {
      if (tries == MOST_TRIES) {
        process.destroyForcibly();
        throw new IOException("Mosquitto does not answer on port " + port);
      }
      Thread.sleep(20);
    }
    return Optional.of(new Mosquitto(process, file, new BrokerAddress(false, LOOPBACK, port)));
  }

  private static boolean answers(int port) {
    try (Socket socket = new Socket(LOOPBACK, port)) {
      return socket.isConnected();
    } catch (IOException e) {
      return false;
    }
  }

  @Override
  public void close() throws IOException {
    process.destroy();
    Files.deleteIfExists(configuration);
  }
}
