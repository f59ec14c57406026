package dev.pawl.mqtt.client;

import java.net.URI;
import java.net.URISyntaxException;

/**
 * Where a broker listens.
 *
 * @param secure whether the connection is encrypted (TLS)
 * @param host name or numeric address
 * @param port TCP port
 */
public record BrokerAddress(boolean secure, String host, int port) {

  /** IANA's registered ports for MQTT in the clear and over TLS. */
  public static final int CLEAR_PORT = 1883;

  public static final int SECURE_PORT = 8883;

  private static final int GREATEST_PORT = 65535;

  /**
   * Reads {@code mqtt://host[:port]} or {@code mqtts://host[:port]}.
   *
   * @throws ConnectionTrouble if the text is something else; the message never repeats what may be a secret
   */
  public static BrokerAddress parse(String text) {
    URI uri;
    try {
      uri = new URI(text);
    } catch (URISyntaxException e) {
      throw new ConnectionTrouble("the broker's address cannot be understood; write mqtt://HOST:PORT or"
          + " mqtts://HOST:PORT");
    }
    if (uri.getUserInfo() != null || uri.getRawAuthority() != null && uri.getRawAuthority().contains("@")) {
      throw new ConnectionTrouble("user and password do not belong into the broker's address, where logs would show"
          + " them;"
          + " put them into a file or into the environment");
    }
    boolean secure = "mqtts".equals(uri.getScheme());
    boolean plainPath = uri.getPath() == null || uri.getPath().isEmpty() || uri.getPath().equals("/");
    if (!secure && !"mqtt".equals(uri.getScheme()) || uri.getHost() == null || !plainPath || uri.getQuery() != null) {
      throw new ConnectionTrouble("'" + text + "' is no broker address; write mqtt://HOST:PORT or mqtts://HOST:PORT");
    }
    int port = uri.getPort() < 0 ? secure ? SECURE_PORT : CLEAR_PORT : uri.getPort();
    if (port == 0 || port > GREATEST_PORT) {
      throw new ConnectionTrouble("port " + port + " is no TCP port; ports run from 1 to " + GREATEST_PORT);
    }
    return new BrokerAddress(secure, uri.getHost(), port);
  }

  @Override
  public String toString() {
    return (secure ? "mqtts://" : "mqtt://") + host + ":" + port;
  }
}
