package dev.pawl.mqtt.client;

import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.pawl.mqtt.support.Mosquitto;
import dev.pawl.mqtt.time.HarnessClock;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What listens at the address speaks something else than was thought, or a secret lies open: one sentence says what to
 * do.
 */
class WrongPortTest {

  private static final String NO_TLS =
      "what listens there does not speak TLS; if it listens in the clear on that port, write mqtt://,"
      + " else state the port at which it speaks TLS";

  @TempDir
  private Path folder;

  private static void requireTrouble(BrokerAddress address, String words) {
    assertThatThrownBy(() -> new ListeningConnection(ConnectionSettings.of(address, "x"), List.of("a"),
        new InboundQueue(1, HarnessClock.started())))
        .isInstanceOf(ConnectionTrouble.class).hasMessage("cannot connect to " + address + ": " + words);
  }

  @Test
  void encryptedToAPortInTheClear() {
    assumeTrue(Mosquitto.isInstalled(), "Mosquitto is not installed");
    try (Mosquitto broker = Mosquitto.start(folder)) {
      requireTrouble(new BrokerAddress(true, "localhost", broker.address().port()), NO_TLS);
    }
  }

  @Test
  void inTheClearToAnEncryptedPort() throws Exception {
    assumeTrue(Mosquitto.isInstalled(), "Mosquitto is not installed");
    Process made = new ProcessBuilder("openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj",
        "/CN=localhost", "-keyout", folder.resolve("key").toString(), "-out", folder.resolve("certificate").toString())
        .redirectErrorStream(true)
        .redirectOutput(folder.resolve("openssl.log").toFile()).start();
    assumeTrue(made.waitFor() == 0, "OpenSSL is not installed");
    try (Mosquitto broker = Mosquitto.start(folder, true, true, "certfile " + folder.resolve("certificate"), "keyfile "
        + folder.resolve("key"))) {
      requireTrouble(new BrokerAddress(false, "127.0.0.1", broker.address().port()),
          "it ended the connection before it said anything; if it wants encryption on that port, write mqtts://");
    }
  }

  /** The alert is TLS's own for a record that is none: level fatal, protocol version (RFC 8446, 6; from memory). */
  @Test
  void whatAnswersOtherwise() throws IOException {
    requireAnswered(false, new byte[] {0x15, 3, 3, 0, 2, 2, 70}, "it wants encryption on that port; write mqtts://");
    requireAnswered(false, "HTTP/1.1 400 Bad Request\r\n\r\n".getBytes(StandardCharsets.US_ASCII),
        "what answers there does not speak MQTT");
    requireAnswered(true, "HTTP/1.1 400 Bad Request\r\n\r\n".getBytes(StandardCharsets.US_ASCII), NO_TLS);
  }

  private static void requireAnswered(boolean secure, byte[] answer, String words) throws IOException {
    try (ServerSocket server = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
      Thread answering = new Thread(() -> {
        try (Socket socket = server.accept()) {
          socket.getOutputStream().write(answer);
          while (socket.getInputStream().read() >= 0) {
            continue;
          }
        } catch (IOException e) {
          // The client is gone.
        }
      });
      answering.start();
      requireTrouble(new BrokerAddress(secure, "localhost", server.getLocalPort()), words);
    }
  }

  @Test
  void aSecretThatEverybodyMayRead() throws IOException {
    Path file = Files.writeString(folder.resolve("credentials"), "user a\npassword b\n");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
    assertThatThrownBy(() -> Credentials.fromFile(file)).isInstanceOf(ConnectionTrouble.class)
        .hasMessage("everybody on this machine may read " + file
            + ", which holds a secret; take that away with: chmod o= " + file);
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r-----"));
    Credentials.fromFile(file);
  }
}
