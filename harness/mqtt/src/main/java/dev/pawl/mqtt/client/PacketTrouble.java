package dev.pawl.mqtt.client;

import java.io.IOException;

/** What comes by a connection and cannot be used, in words for the user. */
final class PacketTrouble extends IOException {

  private static final long serialVersionUID = 1L;

  PacketTrouble(String message) {
    super(message);
  }
}
