package dev.pawl.mqtt.broker;

import dev.pawl.broker.LoopbackBroker;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionTrouble;
import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.concurrent.CompletionException;

/**
 * A broker in this process that listens on the loopback interface only, keeps nothing, and says nothing.
 *
 * <p>Messages of quality 0 that a client takes too slowly wait in memory, up to a quarter of all that this process may use; what does not
 * fit is dropped, and counted.
 */
public final class EmbeddedBroker implements Closeable {

  private final LoopbackBroker broker;
  private final BrokerAddress address;

  private EmbeddedBroker(LoopbackBroker broker, BrokerAddress address) {
    this.broker = broker;
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
    return start(port, Integer.MAX_VALUE);
  }

  /**
   * Starts a broker that bears with slow clients for so long only.
   *
   * @param bytesForSlowClient most memory for messages of quality 0 that wait for one client. What the library has by itself, 5 MiB, is some
   *     ten thousand short messages, a third of a second of a fast sender
   * @throws ConnectionTrouble if it does not start
   */
  public static EmbeddedBroker start(int port, int bytesForSlowClient) {
    try {
      LoopbackBroker broker = LoopbackBroker.start(port, bytesForSlowClient);
      return new EmbeddedBroker(broker, new BrokerAddress(false, LoopbackBroker.HOST, port));
    } catch (NoClassDefFoundError e) {
      throw new ConnectionTrouble("the embedded broker is an archive of its own and is not here: unpack pawl-broker-VERSION.zip over the"
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

  /** Where clients find it. */
  public BrokerAddress address() {
    return address;
  }

  @Override
  public void close() {
    broker.close();
  }
}
