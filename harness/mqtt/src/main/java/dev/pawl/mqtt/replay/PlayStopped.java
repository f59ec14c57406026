package dev.pawl.mqtt.replay;

/** Ends the playing of a trace before its end. */
final class PlayStopped extends RuntimeException {

  private static final long serialVersionUID = 1L;

  PlayStopped(String message) {
    super(message);
  }
}
