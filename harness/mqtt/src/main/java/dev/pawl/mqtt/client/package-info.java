/**
 * Connections to a broker. What may be sent is a matter of type: a {@link ListeningConnection} has no way to publish, down to its socket,
 * and a {@link PublishingConnection} asks a permit about every message. Callbacks of the library never wait: they hand over to an
 * {@link InboundQueue}. Uses the MQTT library, which stays inside this package.
 */
package dev.pawl.mqtt.client;
