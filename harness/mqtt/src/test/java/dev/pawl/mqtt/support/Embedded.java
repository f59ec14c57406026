package dev.pawl.mqtt.support;

import dev.pawl.mqtt.broker.EmbeddedBroker;
import dev.pawl.mqtt.client.BrokerAddress;

/** The embedded broker, to be killed and started again. */
public final class Embedded implements TestBroker {

  private EmbeddedBroker broker = EmbeddedBroker.start(Ports.free());
  private final BrokerAddress address = broker.address();

  @Override
  public BrokerAddress address() {
    return address;
  }

  @Override
  public void kill() {
    broker.close();
  }

  @Override
  public void restart() {
    broker = EmbeddedBroker.start(address.port());
  }

  @Override
  public void close() {
    broker.close();
  }

  @Override
  public String toString() {
    return "embedded";
  }
}
