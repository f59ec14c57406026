package dev.pawl.mqtt.support;

import dev.pawl.mqtt.client.BrokerAddress;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;

/**
 * A cable to a broker, which goes on living: a relay on loopback that a test can cut, so that both ends see their
 * connection end, or clamp, so that nothing passes any more and nobody is told.
 */
public final class Cable implements TestBroker {

  /** Bytes that a clamped cable holds: few, so that what it does not carry waits in the broker. */
  private static final int SHORT = 16_384;

  private final BrokerAddress broker;
  private final ServerSocket server;
  private final Set<Socket> ends = ConcurrentHashMap.newKeySet();
  private final AtomicLong carried = new AtomicLong();
  private final AtomicInteger joined = new AtomicInteger();
  private boolean clamped;
  private volatile int frozen;
  private volatile boolean whole = true;

  public Cable(BrokerAddress broker) {
    this.broker = broker;
    try {
      server = new ServerSocket(0, 50, InetAddress.getByName(broker.host()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    run("test-cable", this::accept);
  }

  private static void run(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.start();
  }

  @Override
  public BrokerAddress address() {
    return new BrokerAddress(false, broker.host(), server.getLocalPort());
  }

  private void accept() {
    while (!server.isClosed()) {
      try {
        Socket near = server.accept();
        if (whole) {
          join(near);
        } else {
          near.close();
        }
      } catch (IOException e) {
        // The cable is taken away, or its far end is not there: the near end sees a connection that ends.
      }
    }
  }

  private void join(Socket near) throws IOException {
    int number = joined.incrementAndGet();
    ends.add(near);
    Socket far = new Socket();
    far.setReceiveBufferSize(SHORT);
    far.connect(new InetSocketAddress(broker.host(), broker.port()));
    ends.add(far);
    if (!whole) {
      near.close();
      far.close();
    }
    near.setTcpNoDelay(true);
    far.setTcpNoDelay(true);
    run("test-cable-out", () -> carry(near, far, number));
    run("test-cable-in", () -> carry(far, near, number));
  }

  private void carry(Socket from, Socket to, int number) {
    byte[] buffer = new byte[8192];
    try (from; to) {
      InputStream in = from.getInputStream();
      OutputStream out = to.getOutputStream();
      for (int count = in.read(buffer); count >= 0; count = in.read(buffer)) {
        awaitRelease();
        if (number > frozen) {
          out.write(buffer, 0, count);
          carried.addAndGet(count);
        }
      }
    } catch (IOException e) {
      // Cut, or one end is gone: both are closed now.
    } finally {
      ends.remove(from);
      ends.remove(to);
    }
  }

  private synchronized void awaitRelease() throws IOException {
    while (clamped) {
      try {
        wait();
      } catch (InterruptedException e) {
        throw new IOException(e);
      }
    }
  }

  /** Nothing passes from now on; what is sent waits. */
  public synchronized void clamp() {
    clamped = true;
  }

  /** Nothing passes any more by the connections that are there, and nobody is told; new ones are as usual. */
  public void freeze() {
    frozen = joined.get();
  }

  public synchronized void release() {
    clamped = false;
    notifyAll();
  }

  /** Bytes that have passed, in both directions. */
  public long carried() {
    return carried.get();
  }

  /** Cuts it. */
  @Override
  public void kill() {
    whole = false;
    for (Socket end : ends) {
      try {
        end.close();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  /** Mends it. */
  @Override
  public void restart() {
    whole = true;
  }

  @Override
  public void close() {
    kill();
    release();
    try {
      server.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public String toString() {
    return "cable";
  }
}
