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
 * @param receiveMaximum most messages that the broker may have on the way unacknowledged; see {@link InboundQueue}
 * @param keepAlive longest silence, while the broker is asked for a sign of life again and again, after which the
 *     connection is lost
 * @param patience how long to wait for the broker's answer to one request
 * @param firstDelay pause before the first attempt to reconnect; it doubles with each failure
 * @param longestDelay longest pause between attempts
 * @param keptFor how long the broker keeps what comes while the connection is down; zero for not at all, so that
 *     nothing arrives with a wrong time
 * @param largestPacket most bytes taken in one packet; a larger one ends the connection
 * @param brokerDrops how many messages the broker has dropped so far, of any of its clients; always 0 where it does not
 *     say
 */
public record ConnectionSettings(BrokerAddress address, String clientId, Optional<Credentials> credentials,
    TlsSettings tls,
    int receiveMaximum, Duration keepAlive, Duration patience, Duration firstDelay, Duration longestDelay,
    Duration keptFor, int largestPacket, LongSupplier brokerDrops) {

  public static final int MEBIBYTE = 1 << 20;
  private static final int USUAL_RECEIVE_MAXIMUM = 1000;

  /** The usual way to connect, with no credentials. */
  public static ConnectionSettings of(BrokerAddress address, String clientId) {
    return new ConnectionSettings(address, clientId, Optional.empty(), TlsSettings.DEFAULT, USUAL_RECEIVE_MAXIMUM,
        Duration.ofSeconds(10), Duration.ofSeconds(10), Duration.ofMillis(100), Duration.ofSeconds(5), Duration.ZERO,
            MEBIBYTE, () -> 0);
  }

  public ConnectionSettings withCredentials(Optional<Credentials> other) {
    return new ConnectionSettings(address, clientId, other, tls, receiveMaximum, keepAlive, patience, firstDelay,
        longestDelay, keptFor,
        largestPacket, brokerDrops);
  }

  public ConnectionSettings withTls(TlsSettings other) {
    return new ConnectionSettings(address, clientId, credentials, other, receiveMaximum, keepAlive, patience,
        firstDelay, longestDelay, keptFor,
        largestPacket, brokerDrops);
  }

  public ConnectionSettings withClientId(String other) {
    return new ConnectionSettings(address, other, credentials, tls, receiveMaximum, keepAlive, patience, firstDelay,
        longestDelay, keptFor,
        largestPacket, brokerDrops);
  }

  public ConnectionSettings withReceiveMaximum(int other) {
    return new ConnectionSettings(address, clientId, credentials, tls, other, keepAlive, patience, firstDelay,
        longestDelay, keptFor,
        largestPacket, brokerDrops);
  }

  public ConnectionSettings withKeepAlive(Duration other) {
    return new ConnectionSettings(address, clientId, credentials, tls, receiveMaximum, other, patience, firstDelay,
        longestDelay, keptFor,
        largestPacket, brokerDrops);
  }

  public ConnectionSettings withKeptFor(Duration other) {
    return new ConnectionSettings(address, clientId, credentials, tls, receiveMaximum, keepAlive, patience, firstDelay,
        longestDelay, other,
        largestPacket, brokerDrops);
  }

  public ConnectionSettings withBrokerDrops(LongSupplier other) {
    return new ConnectionSettings(address, clientId, credentials, tls, receiveMaximum, keepAlive, patience, firstDelay,
        longestDelay, keptFor,
        largestPacket, other);
  }

  public ConnectionSettings withLargestPacket(int other) {
    return new ConnectionSettings(address, clientId, credentials, tls, receiveMaximum, keepAlive, patience, firstDelay,
        longestDelay, keptFor,
        other, brokerDrops);
  }
}
