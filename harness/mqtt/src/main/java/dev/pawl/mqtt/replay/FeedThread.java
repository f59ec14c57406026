package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.feed.Feed;

/** The thread that takes, merges, records and judges while another plays. */
final class FeedThread {

  private final Feed feed;
  private final Thread thread = new Thread(this::work, "pawl-feed");
  private volatile boolean ending;
  private volatile RuntimeException failure;
  private volatile ListeningConnection listening;
  private boolean begun;

  FeedThread(Feed feed) {
    this.feed = feed;
    thread.setDaemon(true);
  }

  /** Begins; the timeline has to be started. */
  void begin() {
    begun = true;
    thread.start();
  }

  private void work() {
    try {
      while (!ending) {
        feed.step();
      }
      feed.step();
      feed.closeDropCount(listening);
      feed.finish();
    } catch (RuntimeException e) {
      failure = e;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Throws what the thread failed with, if it did. */
  void check() {
    if (failure != null) {
      throw failure;
    }
  }

  /** Takes all that is left, the broker's last word on dropped messages by the connection with it, and ends. */
  void end(ListeningConnection connection) {
    listening = connection;
    ending = true;
    try {
      if (begun) {
        thread.join();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    check();
  }
}
