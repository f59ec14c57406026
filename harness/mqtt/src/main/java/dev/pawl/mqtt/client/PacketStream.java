package dev.pawl.mqtt.client;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.SocketException;

/**
 * A stream of incoming MQTT packets that refuses one that is too large as soon as its length is known, before anybody
 * makes room for it, and notes when a packet has come whole, and a refusal. What does not begin as a broker does is
 * refused at its first octet.
 */
final class PacketStream extends FilterInputStream {

  /** The type of the one packet with which a broker may begin. */
  private static final int CONNECTION_ACKNOWLEDGED = 0x20;
  /** With which a TLS record begins that says what is wrong. */
  private static final int TLS_ALERT = 0x15;

  private enum Part {
    TYPE,
    LENGTH,
    BODY
  }

  private final int largest;
  private final Pulse pulse;
  private final PacketLength length = new PacketLength();
  private final boolean encrypted;
  private boolean begun;
  private Part part = Part.TYPE;
  private int remaining;
  private PacketTrouble refusal;

  /**
   * A stream over another.
   *
   * @param largest most bytes that a packet may have after its fixed header
   * @param pulse beats with each whole packet, and is told of a refusal
   * @param encrypted whether it comes by TLS
   */
  PacketStream(InputStream in, int largest, Pulse pulse, boolean encrypted) {
    super(in);
    this.largest = largest;
    this.pulse = pulse;
    this.encrypted = encrypted;
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
  }

  @Override
  public int read(byte[] bytes, int from, int count) throws IOException {
    if (refusal != null) {
      throw refusal;
    }
    int done = begun ? in.read(bytes, from, count) : firstRead(bytes, from, count);
    try {
      inspect(bytes, from, from + done);
    } catch (PacketTrouble e) {
      refusal = e;
      pulse.refuse(e.getMessage());
      throw e;
    }
    return done;
  }

  private int firstRead(byte[] bytes, int from, int count) throws IOException {
    int done;
    try {
      done = in.read(bytes, from, count);
    } catch (SocketException e) {
      done = -1;
    }
    if (done < 0) {
      throw new PacketTrouble("it ended the connection before it said anything" + (encrypted ? ""
          : "; if it wants encryption on that port, write mqtts://"));
    }
    return done;
  }

  private void requireBeginning(int octet) throws PacketTrouble {
    begun = true;
    if (octet == TLS_ALERT && !encrypted) {
      throw new PacketTrouble("it wants encryption on that port; write mqtts://");
    } else if (octet != CONNECTION_ACKNOWLEDGED) {
      throw new PacketTrouble("what answers there does not speak MQTT");
    }
  }

  private void inspect(byte[] bytes, int from, int to) throws PacketTrouble {
    if (!begun && from < to) {
      requireBeginning(bytes[from] & 0xff);
    }
    boolean whole = false;
    int at = from;
    while (at < to) {
      switch (part) {
        case TYPE -> {
          at++;
          length.clear();
          part = Part.LENGTH;
        }
        case LENGTH -> {
          if (length.isWholeWith(bytes[at++])) {
            remaining = length.value();
            requireTakeable();
            part = remaining == 0 ? Part.TYPE : Part.BODY;
          }
        }
        case BODY -> {
          int taken = Math.min(remaining, to - at);
          at += taken;
          remaining -= taken;
          part = remaining == 0 ? Part.TYPE : Part.BODY;
        }
      }
      whole |= part == Part.TYPE;
    }
    if (whole) {
      pulse.beat();
    }
  }

  private void requireTakeable() throws PacketTrouble {
    if (remaining > largest) {
      throw new PacketTrouble("the broker sends a message of " + remaining + " bytes, and " + largest
          + " are taken at most; find out who sends that, or allow it with --largest-message");
    }
  }
}
