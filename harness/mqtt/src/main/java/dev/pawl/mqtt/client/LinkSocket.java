package dev.pawl.mqtt.client;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketAddress;
import java.net.SocketException;
import java.util.Optional;
import javax.net.ssl.SSLHandshakeException;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.SSLSocketFactory;

/**
 * The socket under a connection: without Nagle's delay, encrypted with the broker's name checked where asked for, with
 * the packet rule applied to all that leaves it, and with no packet taken that is too large. The library above sees a
 * plain socket.
 */
final class LinkSocket extends Socket {

  private final String host;
  private final Optional<SSLSocketFactory> tls;
  private final PacketRule rule;
  private final int largestPacket;
  private final Pulse pulse;
  private final Socket raw = new Socket();
  private volatile Socket carrier = raw;
  private OutputStream out;

  /**
   * A socket that is not connected yet.
   *
   * @param largestPacket most bytes taken in one packet
   * @param pulse beats with each packet that comes
   */
  LinkSocket(String host, Optional<SSLSocketFactory> tls, PacketRule rule, int largestPacket, Pulse pulse) {
    this.host = host;
    this.tls = tls;
    this.rule = rule;
    this.largestPacket = largestPacket;
    this.pulse = pulse;
  }

  @Override
  public void connect(SocketAddress endpoint) throws IOException {
    connect(endpoint, 0);
  }

  @Override
  public void connect(SocketAddress endpoint, int timeout) throws IOException {
    raw.setTcpNoDelay(true);
    raw.connect(endpoint, timeout);
    if (tls.isPresent()) {
      encrypt(((InetSocketAddress) endpoint).getPort(), timeout);
    }
    OutputStream plain = carrier.getOutputStream();
    out = rule == PacketRule.RECEIVE_ONLY ? new ReceiveOnlyStream(plain) : plain;
  }

  private void encrypt(int port, int timeout) throws IOException {
    SSLSocket secure = (SSLSocket) tls.get().createSocket(raw, host, port, true);
    SSLParameters parameters = secure.getSSLParameters();
    parameters.setEndpointIdentificationAlgorithm("HTTPS");
    secure.setSSLParameters(parameters);
    raw.setSoTimeout(timeout);
    shakeHands(secure);
    raw.setSoTimeout(0);
    carrier = secure;
  }

  /** A peer that does not speak TLS ends the connection, answers something else or goes on waiting. */
  private static void shakeHands(SSLSocket secure) throws IOException {
    try {
      secure.startHandshake();
    } catch (IOException e) {
      boolean isTls = e instanceof SSLHandshakeException && !(e.getCause() instanceof EOFException);
      throw isTls ? e
          : new PacketTrouble("what listens there does not speak TLS; if it listens in the clear on that port, write"
          + " mqtt://,"
          + " else state the port at which it speaks TLS");
    }
  }

  @Override
  public InputStream getInputStream() throws IOException {
    return new PacketStream(carrier.getInputStream(), largestPacket, pulse, tls.isPresent());
  }

  @Override
  public OutputStream getOutputStream() throws IOException {
    if (out == null) {
      throw new IOException("not connected");
    }
    return out;
  }

  @Override
  public void setSoTimeout(int milliseconds) throws SocketException {
    carrier.setSoTimeout(milliseconds);
  }

  @Override
  public void shutdownInput() throws IOException {
    raw.shutdownInput();
  }

  @Override
  public boolean isConnected() {
    return raw.isConnected();
  }

  @Override
  public boolean isClosed() {
    return raw.isClosed();
  }

  @Override
  public void close() throws IOException {
    try (Socket closingRaw = raw; Socket closingCarrier = carrier) {
      super.close();
    }
  }
}
