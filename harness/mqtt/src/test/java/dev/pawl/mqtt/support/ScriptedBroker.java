package dev.pawl.mqtt.support;

import dev.pawl.mqtt.client.BrokerAddress;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;

/**
 * A broker for the fewest packets of MQTT 5 (section 2.1, from memory), which sends whatever a test wants, sound or
 * not. Its one client is the newest.
 */
public final class ScriptedBroker implements AutoCloseable {

  private static final int CONNECT = 1;
  private static final int SUBSCRIBE = 8;
  private static final int UNSUBSCRIBE = 10;
  private static final int PING = 12;

  private final ServerSocket server;
  private Socket client;
  private boolean mute;
  private int greetings;

  public ScriptedBroker() {
    try {
      server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    run(this::accept);
  }

  private static void run(Runnable work) {
    Thread thread = new Thread(work, "test-scripted-broker");
    thread.setDaemon(true);
    thread.start();
  }

  public BrokerAddress address() {
    return new BrokerAddress(false, "127.0.0.1", server.getLocalPort());
  }

  private void accept() {
    while (!server.isClosed()) {
      try {
        Socket socket = server.accept();
        run(() -> serve(socket));
      } catch (IOException e) {
        // Closed.
      }
    }
  }

  private void serve(Socket socket) {
    try (socket) {
      DataInputStream in = new DataInputStream(socket.getInputStream());
      while (true) {
        int type = in.readUnsignedByte() >> 4;
        byte[] body = in.readNBytes(length(in));
        answer(socket, type, body);
      }
    } catch (IOException e) {
      // The client is gone.
    }
  }

  private static int length(DataInputStream in) throws IOException {
    int value = 0;
    for (int shift = 0; ; shift += 7) {
      int octet = in.readUnsignedByte();
      value |= (octet & 0x7f) << shift;
      if (octet < 0x80) {
        return value;
      }
    }
  }

  private synchronized void answer(Socket socket, int type, byte[] body) throws IOException {
    if (type == CONNECT) {
      client = socket;
      mute = false;
    }
    if (mute) {
      return;
    }
    switch (type) {
      case CONNECT -> write(socket, 0x20, 0, 0, 0);
      case SUBSCRIBE -> {
        for (int i = 0; i < greetings; i++) {
          publish("greeting", Integer.toString(i));
        }
        int[] codes = new int[3 + topics(body)];
        codes[0] = body[0];
        codes[1] = body[1];
        write(socket, 0x90, codes);
      }
      case UNSUBSCRIBE -> write(socket, 0xB0, body[0], body[1], 0, 0x11);
      case PING -> write(socket, 0xD0);
      default -> { }
    }
  }

  /** How many topics a subscription without properties asks for. */
  private static int topics(byte[] body) {
    int count = 0;
    for (int at = 3; at < body.length; at += 3 + ((body[at] & 0xff) << 8 | body[at + 1] & 0xff)) {
      count++;
    }
    return count;
  }

  private static void write(Socket socket, int type, int... body) throws IOException {
    ByteArrayOutputStream packet = new ByteArrayOutputStream();
    packet.write(type);
    packet.write(body.length);
    for (int octet : body) {
      packet.write(octet);
    }
    OutputStream out = socket.getOutputStream();
    out.write(packet.toByteArray());
    out.flush();
  }

  /** Sends a short message at quality 0. */
  public synchronized void publish(String topic, String text) {
    byte[] name = topic.getBytes(StandardCharsets.UTF_8);
    byte[] payload = text.getBytes(StandardCharsets.UTF_8);
    int[] body = new int[3 + name.length + payload.length];
    body[1] = name.length;
    for (int i = 0; i < name.length; i++) {
      body[2 + i] = name[i];
    }
    for (int i = 0; i < payload.length; i++) {
      body[3 + name.length + i] = payload[i];
    }
    try {
      write(client, 0x30, body);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** From now on sends so many messages, numbered from 0, before it answers to a subscription, as a broker may. */
  public synchronized void greet(int messages) {
    greetings = messages;
  }

  /** Sends these bytes, and answers nothing from now on until a client connects anew. */
  public synchronized void raw(int... bytes) {
    mute = true;
    try {
      for (int octet : bytes) {
        client.getOutputStream().write(octet);
      }
    } catch (IOException e) {
      // The client has gone, as it may.
    }
  }

  /**
   * Sends one byte more.
   *
   * @return whether the client has connected anew instead
   */
  public synchronized boolean dribbled() {
    if (mute) {
      raw(0);
    }
    return !mute;
  }

  @Override
  public synchronized void close() throws IOException {
    server.close();
    if (client != null) {
      client.close();
    }
  }
}
