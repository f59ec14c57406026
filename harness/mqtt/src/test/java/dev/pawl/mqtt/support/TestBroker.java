package dev.pawl.mqtt.support;

import dev.pawl.mqtt.client.BrokerAddress;

/** A real broker that a test can kill and start again on the same port. */
public interface TestBroker extends AutoCloseable {

  BrokerAddress address();

  void kill();

  void restart();

  @Override
  void close();
}
