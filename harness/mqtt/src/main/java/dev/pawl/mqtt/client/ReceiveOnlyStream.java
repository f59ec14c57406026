package dev.pawl.mqtt.client;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;

/**
 * A stream of outgoing MQTT packets that lets none through by which others could be sent a message: it reads each
 * packet's fixed header (MQTT 5, 2.1) and refuses PUBLISH, and CONNECT with a will. The last guard of a client that
 * only listens: what is above it may be wrong, a message cannot leave all the same.
 */
final class ReceiveOnlyStream extends FilterOutputStream {

  private static final int CONNECT = 1;
  private static final int PUBLISH = 3;
  private static final int WILL_FLAG = 0x04;
  /**
   * Length of the protocol name, the name, the protocol version: the connect flags come after these 7 bytes (3.1.2.3).
   */
  private static final int CONNECT_FLAGS_AT = 7;

  private enum Part {
    TYPE,
    LENGTH,
    BODY
  }

  private Part part = Part.TYPE;
  private int type;
  private final PacketLength length = new PacketLength();
  private long remaining;
  private long position;
  private boolean refused;

  ReceiveOnlyStream(OutputStream out) {
    super(out);
  }

  @Override
  public synchronized void write(int octet) throws IOException {
    inspect(octet & 0xff);
    out.write(octet);
  }

  @Override
  public synchronized void write(byte[] bytes, int from, int count) throws IOException {
    for (int i = from; i < from + count; i++) {
      inspect(bytes[i] & 0xff);
    }
    out.write(bytes, from, count);
  }

  private void inspect(int octet) throws IOException {
    if (refused) {
      throw refusal();
    }
    switch (part) {
      case TYPE -> {
        type = octet >> 4;
        length.clear();
        position = 0;
        part = Part.LENGTH;
        refuseIf(type == PUBLISH);
      }
      case LENGTH -> {
        if (length.isWholeWith(octet)) {
          remaining = length.value();
          part = remaining == 0 ? Part.TYPE : Part.BODY;
        }
      }
      case BODY -> {
        refuseIf(type == CONNECT && position == CONNECT_FLAGS_AT && (octet & WILL_FLAG) != 0);
        position++;
        remaining--;
        if (remaining == 0) {
          part = Part.TYPE;
        }
      }
    }
  }

  private void refuseIf(boolean forbidden) throws IOException {
    if (forbidden) {
      refused = true;
      throw refusal();
    }
  }

  private static IOException refusal() {
    return new IOException("this connection is receive-only: it sends no message and leaves no will");
  }
}
