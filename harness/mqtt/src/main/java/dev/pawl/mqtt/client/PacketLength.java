package dev.pawl.mqtt.client;

/** The length of a packet's rest as it comes, octet by octet (MQTT 5, 1.5.5). */
final class PacketLength {

  private static final int MOST_BITS = 28;

  private int value;
  private int bits;

  /**
   * Takes the next octet.
   *
   * @return whether it is the last
   * @throws PacketTrouble if it would be a fifth
   */
  boolean isWholeWith(int octet) throws PacketTrouble {
    if (bits == MOST_BITS) {
      throw new PacketTrouble("what came is no MQTT: the length of a packet has more than four octets");
    }
    value |= (octet & 0x7f) << bits;
    bits += 7;
    return (octet & 0x80) == 0;
  }

  int value() {
    return value;
  }

  /** Begins the next packet's. */
  void clear() {
    value = 0;
    bits = 0;
  }
}
