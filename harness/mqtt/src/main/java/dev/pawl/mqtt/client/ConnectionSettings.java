package dev.pawl.mqtt.client;

import java.time.Duration;
import java.util.Optional;
import java.util.function.LongSupplier;

/**
 * How to connect.
 *
 * @param address where the broker is
 * @param clientId the client's identifier, unique on the broker
 * @param credentials user and password
 * @param tls whom to trust, for encrypted connections
 * @param keepAlive longest silence, while the broker is asked for a sign of life again and again, after which the
 *     connection is lost
 * @param keptFor how long the broker keeps what comes while the connection is down; zero for not at all, so that
 *     nothing arrives with a wrong time
 * @param largestPacket most bytes taken in one packet; a larger one ends the connection
 * @param brokerDrops how many messages the broker has dropped so far, of any of its clients; always 0 where it does not
 *     say
 */
public record ConnectionSettings(BrokerAddress address, String clientId, Optional<Credentials> credentials,
    TlsSettings tls, Duration keepAlive, Duration keptFor, int largestPacket, LongSupplier brokerDrops) {

  public static final int MEBIBYTE = 1 << 20;

  /** Most messages that the broker may have on the way unacknowledged; see {@link InboundQueue}. */
  static final int RECEIVE_MAXIMUM = 1000;
  /** How long to wait for the broker's answer to one request. */
  static final Duration PATIENCE = Duration.ofSeconds(10);
  /** Pause before the first attempt to reconnect; it doubles with each failure. */
  static final Duration FIRST_DELAY = Duration.ofMillis(100);
  static final Duration LONGEST_DELAY = Duration.ofSeconds(5);

  /** The usual way to connect, with no credentials. */
  public static ConnectionSettings of(BrokerAddress address, String clientId) {
    return new ConnectionSettings(address, clientId, Optional.empty(), TlsSettings.DEFAULT, Duration.ofSeconds(10),
        Duration.ZERO, MEBIBYTE, () -> 0);
  }

  public ConnectionSettings withCredentials(Optional<Credentials> other) {
    return new ConnectionSettings(address, clientId, other, tls, keepAlive, keptFor, largestPacket, brokerDrops);
  }

  public ConnectionSettings withTls(TlsSettings other) {
    return new ConnectionSettings(address, clientId, credentials, other, keepAlive, keptFor, largestPacket,
        brokerDrops);
  }

  public ConnectionSettings withClientId(String other) {
    return new ConnectionSettings(address, other, credentials, tls, keepAlive, keptFor, largestPacket, brokerDrops);
  }

  public ConnectionSettings withKeepAlive(Duration other) {
    return new ConnectionSettings(address, clientId, credentials, tls, other, keptFor, largestPacket, brokerDrops);
  }

  public ConnectionSettings withKeptFor(Duration other) {
    return new ConnectionSettings(address, clientId, credentials, tls, keepAlive, other, largestPacket, brokerDrops);
  }

  public ConnectionSettings withBrokerDrops(LongSupplier other) {
    return new ConnectionSettings(address, clientId, credentials, tls, keepAlive, keptFor, largestPacket, other);
  }

  public ConnectionSettings withLargestPacket(int other) {
    return new ConnectionSettings(address, clientId, credentials, tls, keepAlive, keptFor, other, brokerDrops);
  }
}
