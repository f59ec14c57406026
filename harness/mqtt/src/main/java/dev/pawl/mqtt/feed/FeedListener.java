package dev.pawl.mqtt.feed;

import dev.pawl.mqtt.client.Inbound;

/** Is told of what a feed takes, on the feed's thread. */
public interface FeedListener {

  /** A listener that does nothing. */
  FeedListener NONE = new FeedListener() { };

  /** News of a connection. */
  default void news(Inbound.News news) {}

  /** A value has been read out of a message that is about to have been taken. */
  default void heard(int signal, long value) {}

  /** A message, not a repetition, has been taken. */
  default void taken(Inbound.Message message) {}

  /**
   * A message on a topic that no signal is bound to.
   *
   * @return whether it was expected, so that it is nothing strange
   */
  default boolean other(Inbound.Message message) {
    return false;
  }

  /** All that came so far has been taken, and time has come this far. */
  default void settled(long horizon) {}
}
