package dev.pawl.mqtt.client;

/** Which kinds of MQTT control packet may leave a socket. */
enum PacketRule {
  /** All of them. */
  ANY,
  /** None that can make the broker pass a message on to others: no PUBLISH, and no last will in CONNECT. */
  RECEIVE_ONLY
}
