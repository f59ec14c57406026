package dev.pawl.trace.ahead;

import dev.pawl.engine.Batch;
import dev.pawl.engine.EventSink;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;

/**
 * A way for events from the thread that brings them, which calls the methods of the sink and then {@link #end}, to the
 * one that takes them, which calls {@link #playAll}. Whoever is ahead waits.
 */
final class HandOver implements EventSink {

  private static final int BATCHES = 8;

  private final BlockingQueue<Batch> empty = new ArrayBlockingQueue<>(BATCHES);
  private final BlockingQueue<Batch> full = new ArrayBlockingQueue<>(BATCHES + 1);
  private final Batch last = new Batch(0);
  private Batch current;

  /** A way on which so many events are handed over at once. */
  HandOver(int batchSize) {
    for (int i = 0; i < BATCHES; i++) {
      empty.add(new Batch(batchSize));
    }
    current = empty.remove();
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (current.isFull()) {
      handOver();
    }
    current.event(time, signal, value, line);
  }

  @Override
  public void advanceTo(long time) {
    if (current.isFull()) {
      handOver();
    }
    current.advance(time);
  }

  private void handOver() {
    try {
      full.put(current);
      current = empty.take();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Stopped();
    }
  }

  /** States that no more events come. */
  void end() {
    full.add(current);
    full.add(last);
  }

  /**
   * Gives all events to a sink, up to the end.
   *
   * @throws InterruptedException if this thread is interrupted while it waits for events
   */
  void playAll(EventSink sink) throws InterruptedException {
    for (Batch batch = full.take(); batch != last; batch = full.take()) {
      batch.play(sink);
      batch.clear();
      empty.add(batch);
    }
  }

  /** The thread that brings events was told to give up. */
  static final class Stopped extends RuntimeException {

    private static final long serialVersionUID = 1;

    Stopped() {
      super("handing events over was stopped", null, false, false);
    }
  }
}
