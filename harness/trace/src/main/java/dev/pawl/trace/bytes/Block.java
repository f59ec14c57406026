package dev.pawl.trace.bytes;

import java.util.concurrent.atomic.AtomicInteger;

/** A window of its own, that some thread may have looked into before its turn comes. */
public abstract class Block {

  private static final int FRESH = 0;
  private static final int TAKEN = 1;
  private static final int DONE = 2;

  private final AtomicInteger state = new AtomicInteger(DONE);
  private byte[] bytes;
  private int start;
  private int end;

  /** A block without a window. */
  protected Block(byte[] spare) {
    this.bytes = spare;
  }

  /** Looks into the window; called at most once for each. */
  protected abstract void decode(byte[] window, int from, int to);

  /** Forgets what was found in the window before. */
  protected abstract void forget();

  /** Takes the feed's window, and gives it an array for what follows. */
  final void fill(Feed feed) {
    start = feed.start();
    end = feed.end();
    bytes = feed.exchange(bytes);
    forget();
    state.set(FRESH);
  }

  /** Makes the window the calling thread's; false if another has it. */
  final boolean claim() {
    return state.compareAndSet(FRESH, TAKEN);
  }

  /** Leaves a window that was claimed as it is. */
  final void leave() {
    state.set(DONE);
  }

  /** Looks into the window that was claimed. */
  final void work() {
    try {
      decode(bytes, start, end);
    } finally {
      state.set(DONE);
    }
  }

  final boolean isDone() {
    return state.get() == DONE;
  }

  final byte[] bytes() {
    return bytes;
  }

  final int start() {
    return start;
  }

  final int end() {
    return end;
  }
}
