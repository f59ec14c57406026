package dev.pawl.mqtt.client;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import javax.net.SocketFactory;
import javax.net.ssl.SSLSocketFactory;

/** Makes the sockets of one connection. */
final class LinkSocketFactory extends SocketFactory {

  private final String host;
  private final Optional<SSLSocketFactory> tls;
  private final PacketRule rule;
  private final AtomicLong lastHeard = new AtomicLong(System.nanoTime());

  LinkSocketFactory(ConnectionSettings settings, PacketRule rule) {
    this.host = settings.address().host();
    this.tls = settings.address().secure() ? Optional.of(settings.tls().socketFactory()) : Optional.empty();
    this.rule = rule;
  }

  /** Nanoseconds since anything at all came from the broker. */
  long silence() {
    return System.nanoTime() - lastHeard.get();
  }

  @Override
  public Socket createSocket() {
    return new LinkSocket(host, tls, rule, lastHeard);
  }

  @Override
  public Socket createSocket(String name, int port) throws IOException {
    return connectedOnly();
  }

  @Override
  public Socket createSocket(String name, int port, InetAddress local, int localPort) throws IOException {
    return connectedOnly();
  }

  @Override
  public Socket createSocket(InetAddress address, int port) throws IOException {
    return connectedOnly();
  }

  @Override
  public Socket createSocket(InetAddress address, int port, InetAddress local, int localPort) throws IOException {
    return connectedOnly();
  }

  private static Socket connectedOnly() throws IOException {
    throw new IOException("sockets of this factory are connected by their user");
  }
}
