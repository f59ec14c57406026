package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.feed.LiveFeed;

/** The thread that takes, merges, records and judges while another plays. */
final class FeedThread {

  private final LiveFeed feed;
  private final Thread thread = new Thread(this::work, "pawl-feed");
  private volatile boolean ending;
  private volatile Throwable failure;
  private boolean begun;

  FeedThread(LiveFeed feed) {
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
      feed.close();
      feed.finish();
    } catch (RuntimeException | Error e) {
      failure = e;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Throws what the thread failed with, if it did. */
  void check() {
    if (failure instanceof RuntimeException problem) {
      throw problem;
    } else if (failure instanceof Error error) {
      throw error;
    }
  }

  /** Takes all that is left, and ends. */
  void end() {
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
