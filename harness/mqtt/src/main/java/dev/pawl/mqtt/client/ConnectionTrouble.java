package dev.pawl.mqtt.client;

/** A connection that cannot be made or used, in words for the user and without secrets. */
public final class ConnectionTrouble extends RuntimeException {

  private static final long serialVersionUID = 1L;

  public ConnectionTrouble(String message) {
    super(message);
  }

  public ConnectionTrouble(String message, Throwable cause) {
    super(message, cause);
  }
}
