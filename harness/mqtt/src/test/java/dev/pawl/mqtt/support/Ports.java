package dev.pawl.mqtt.support;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.BindException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.Random;

/**
 * Ports for brokers that are killed and started again. They lie below those that systems usually give to outgoing
 * connections (RFC 6335 has those from 49152 on, Linux from 32768), so that no client takes one while its broker is
 * away.
 */
public final class Ports {

  private static final int FIRST = 20_000;
  private static final int COUNT = 12_000;
  private static int next = new Random().nextInt(COUNT);

  private Ports() {}

  /** A port of loopback that nobody listens to, another one each time. */
  public static synchronized int free() {
    for (int i = 0; i < COUNT; i++) {
      int port = FIRST + next;
      next = (next + 1) % COUNT;
      if (isFree(port)) {
        return port;
      }
    }
    throw new IllegalStateException("no port of loopback is free");
  }

  private static boolean isFree(int port) {
    try (ServerSocket socket = new ServerSocket(port, 1, InetAddress.getByName("127.0.0.1"))) {
      return socket.isBound();
    } catch (BindException e) {
      return false;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
