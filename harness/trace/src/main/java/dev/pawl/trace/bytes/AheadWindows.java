package dev.pawl.trace.bytes;

import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.function.Function;

/**
 * The windows of a feed, some of them read ahead of their turn, so that a second thread can look into them. They come in their
 * order, and what that thread found is only an offer: whoever takes a window may do it all again.
 *
 * <p>A record that goes over the end of a window ends the reading ahead for good: what was read goes back, and the feed's own
 * windows follow.
 *
 * @param <B> the kind of block
 */
public final class AheadWindows<B extends Block> implements Windows, Closeable {

  private static final int BLOCKS = 6;

  private final Feed feed;
  private final Thread helper;
  private final BlockingQueue<B> offered = new LinkedBlockingQueue<>();
  private final Deque<B> spare = new ArrayDeque<>();
  private final Deque<B> ahead = new ArrayDeque<>();
  private B current;
  private boolean plain;

  /**
   * Windows that go on where a feed is now.
   *
   * @param blocks makes a block from an array
   */
  public AheadWindows(Feed feed, Function<byte[], B> blocks) {
    this.feed = feed;
    for (int i = 0; i < BLOCKS; i++) {
      spare.add(blocks.apply(feed.spare()));
    }
    helper = new Thread(this::help, "pawl-decode");
    helper.setDaemon(true);
    helper.start();
  }

  private void help() {
    try {
      while (true) {
        B block = offered.take();
        if (block.claim()) {
          block.work();
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (RuntimeException e) {
      // The window counts as looked into up to the row that failed, which then fails on the thread that can report it.
      Thread.currentThread().interrupt();
    }
  }

  /** What was found in the present window ahead of its turn, if the window is one of those read ahead. */
  public Optional<B> found() {
    return plain ? Optional.empty() : Optional.ofNullable(current);
  }

  @Override
  public boolean next(int from) throws IOException {
    if (!plain && current != null && from != current.end()) {
      giveBack(from);
      return feed.next(feed.start());
    }
    if (plain) {
      return feed.next(from);
    }
    if (current != null) {
      spare.add(current);
      current = null;
    }
    readAhead();
    current = ahead.pollFirst();
    if (current == null) {
      plain = true;
      return feed.next(feed.end());
    }
    await(current);
    return true;
  }

  private void readAhead() throws IOException {
    while (!spare.isEmpty() && feed.next(feed.end())) {
      B block = spare.removeFirst();
      block.fill(feed);
      ahead.addLast(block);
      offered.add(block);
    }
  }

  /** Waits for a window whose turn has come, and meanwhile looks into others; one that nobody has begun is left to the caller. */
  private void await(B block) {
    if (block.claim()) {
      block.leave();
      return;
    }
    while (!block.isDone()) {
      Iterator<B> others = ahead.iterator();
      boolean found = false;
      while (!found && others.hasNext()) {
        B other = others.next();
        found = other.claim();
        if (found) {
          other.work();
        }
      }
      if (!found) {
        Thread.yield();
      }
    }
  }

  /** Puts everything from a place in the present window on back in front of the feed. */
  private void giveBack(int from) {
    plain = true;
    while (!ahead.isEmpty()) {
      B block = ahead.pollLast();
      await(block);
      feed.putBack(block.bytes(), block.start(), block.end());
    }
    feed.putBack(current.bytes(), from, current.end());
  }

  @Override
  public byte[] bytes() {
    return plain ? feed.bytes() : current.bytes();
  }

  @Override
  public int start() {
    return plain ? feed.start() : current.start();
  }

  @Override
  public int end() {
    return plain ? feed.end() : current.end();
  }

  @Override
  public boolean skipLine() throws IOException {
    return feed.skipLine();
  }

  @Override
  public boolean exhausted() {
    return plain && feed.exhausted();
  }

  @Override
  public long position() {
    return feed.position();
  }

  @Override
  public Optional<String> damage() {
    return feed.damage();
  }

  @Override
  public void close() {
    helper.interrupt();
  }
}
