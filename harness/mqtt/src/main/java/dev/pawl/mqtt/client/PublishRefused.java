package dev.pawl.mqtt.client;

/** A message that may not be sent. */
public final class PublishRefused extends RuntimeException {

  private static final long serialVersionUID = 1L;

  public PublishRefused(String message) {
    super(message);
  }
}
