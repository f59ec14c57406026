package dev.pawl.mqtt.broker;

import dev.pawl.broker.LoopbackBroker;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.client.Credentials;
import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.Optional;
import java.util.concurrent.CompletionException;

/**
 * A broker in this process that listens on the loopback interface only, keeps nothing, and says nothing.
 *
 * <p>Messages of quality 0 that a client takes too slowly wait in memory, up to a quarter of all that this process may
 * use; what does not fit is dropped, and counted.
 */
public final class EmbeddedBroker implements Closeable {

  private final LoopbackBroker broker;
  private final BrokerAddress address;
  private final Optional<Credentials> credentials;

  private EmbeddedBroker(LoopbackBroker broker, BrokerAddress address, Optional<Credentials> credentials) {
    this.broker = broker;
    this.address = address;
    this.credentials = credentials;
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
   * @param bytesForSlowClient most memory for messages of quality 0 that wait for one client. What the library has by
   *     itself, 5 MiB, is some ten thousand short messages, a third of a second of a fast sender
   * @throws ConnectionTrouble if it does not start
   */
  public static EmbeddedBroker start(int port, int bytesForSlowClient) {
    return start(port, bytesForSlowClient, Optional.empty());
  }

  private static EmbeddedBroker start(int port, int bytesForSlowClient, Optional<Credentials> credentials) {
    try {
      LoopbackBroker broker = LoopbackBroker.start(port, bytesForSlowClient, credentials.map(known -> known::match));
      return new EmbeddedBroker(broker, new BrokerAddress(false, LoopbackBroker.HOST, port), credentials);
    } catch (NoClassDefFoundError e) {
      throw new ConnectionTrouble("the embedded broker is an archive of its own and is not here: unpack"
          + " pawl-broker-VERSION.zip over the"
          + " folder of pawl, or name another broker with --broker mqtt://HOST:PORT", e);
    } catch (IOException e) {
      throw new ConnectionTrouble("the embedded broker cannot prepare its folder: " + e.getMessage(), e);
    } catch (CompletionException e) {
      throw new ConnectionTrouble("the embedded broker does not start on port " + port + "; is the port taken?", e);
    }
  }

  private static int freePort() {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Messages dropped so far, of any client, because it took them too slowly. */
  public long dropped() {
    return broker.dropped();
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
    broker.close();
  }
}
