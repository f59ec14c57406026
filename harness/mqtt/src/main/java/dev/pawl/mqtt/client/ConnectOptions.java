package dev.pawl.mqtt.client;

import java.util.Optional;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;

/** The library's options of a connection, from this project's settings. */
final class ConnectOptions {

  private ConnectOptions() {}

  /**
   * What a connection asks of the broker, and of the library.
   *
   * @param rule which packets may leave: a will is one of those that a listener must not send
   * @param again whether there was a connection before, whose session may go on
   */
  static MqttConnectionOptions of(ConnectionSettings settings, PacketRule rule, Optional<LastWill> will,
      LinkSocketFactory sockets,
      boolean again) {
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setSocketFactory(sockets);
    options.setCleanStart(!again || settings.keptFor().isZero());
    options.setSessionExpiryInterval(settings.keptFor().toSeconds());
    options.setAutomaticReconnect(false);
    options.setReceiveMaximum(ConnectionSettings.RECEIVE_MAXIMUM);
    options.setKeepAliveInterval((int) Math.max(1, settings.keepAlive().toSeconds()));
    options.setConnectionTimeout((int) Math.max(1, ConnectionSettings.PATIENCE.toSeconds()));
    settings.credentials().ifPresent(credentials -> {
      options.setUserName(credentials.user());
      options.setPassword(credentials.password());
    });
    if (rule == PacketRule.ANY) {
      will.ifPresent(w -> options.setWill(w.topic(), w.toMessage()));
    }
    return options;
  }
}
