package dev.pawl.mqtt.client;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketAddress;
import java.net.SocketException;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.SSLSocketFactory;

/**
 * The socket under a connection: without Nagle's delay, encrypted with the broker's name checked where asked for, and with the packet rule
 * applied to all that leaves it. The library above sees a plain socket.
 */
final class LinkSocket extends Socket {

  private final String host;
  private final Optional<SSLSocketFactory> tls;
  private final PacketRule rule;
  private final AtomicLong lastHeard;
  private final Socket raw = new Socket();
  private volatile Socket carrier = raw;
  private OutputStream out;

  /**
   * A socket that is not connected yet.
   *
   * @param lastHeard set to {@link System#nanoTime} whenever something comes in
   */
  LinkSocket(String host, Optional<SSLSocketFactory> tls, PacketRule rule, AtomicLong lastHeard) {
    this.host = host;
    this.tls = tls;
    this.rule = rule;
    this.lastHeard = lastHeard;
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
    secure.startHandshake();
    raw.setSoTimeout(0);
    carrier = secure;
  }

  @Override
  public InputStream getInputStream() throws IOException {
    return new HeardStream(carrier.getInputStream());
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

  /** Notes when something comes. */
  private final class HeardStream extends FilterInputStream {

    HeardStream(InputStream in) {
      super(in);
    }

    private void heard(boolean something) {
      if (something) {
        lastHeard.lazySet(System.nanoTime());
      }
    }

    @Override
    public int read() throws IOException {
      int octet = in.read();
      heard(octet >= 0);
      return octet;
    }

    @Override
    public int read(byte[] bytes, int from, int count) throws IOException {
      int done = in.read(bytes, from, count);
      heard(done > 0);
      return done;
    }
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
