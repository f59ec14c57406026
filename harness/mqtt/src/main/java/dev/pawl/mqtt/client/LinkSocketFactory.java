package dev.pawl.mqtt.client;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.Optional;
import javax.net.SocketFactory;
import javax.net.ssl.SSLSocketFactory;

/** Makes the sockets of one connection. */
final class LinkSocketFactory extends SocketFactory {

  private final String host;
  private final Optional<SSLSocketFactory> tls;
  private final PacketRule rule;
  private final int largestPacket;
  private volatile Pulse pulse = new Pulse();

  LinkSocketFactory(ConnectionSettings settings, PacketRule rule) {
    this.host = settings.address().host();
    this.tls = settings.address().secure() ? Optional.of(settings.tls().socketFactory()) : Optional.empty();
    this.rule = rule;
    this.largestPacket = settings.largestPacket();
  }

  /** Of the newest socket. */
  Pulse pulse() {
    return pulse;
  }

  @Override
  public Socket createSocket() {
    Pulse fresh = new Pulse();
    pulse = fresh;
    return new LinkSocket(host, tls, rule, largestPacket, fresh);
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
