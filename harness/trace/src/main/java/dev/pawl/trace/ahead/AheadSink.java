package dev.pawl.trace.ahead;

import dev.pawl.engine.EventSink;
import java.io.IOException;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;

/** The near end of a hand-over: takes events on the decoding thread, for a sink that runs on the calling thread. */
public final class AheadSink implements EventSink {

  private static final int BATCHES = 8;

  /** Something that produces events, on the decoding thread. */
  @FunctionalInterface
  public interface Source<T> {
    T sendTo(EventSink sink) throws IOException;
  }

  private final BlockingQueue<Batch> empty = new ArrayBlockingQueue<>(BATCHES);
  private final BlockingQueue<Batch> full = new ArrayBlockingQueue<>(BATCHES + 1);
  private final Batch last = new Batch();
  private Batch current;

  private AheadSink() {
    for (int i = 0; i < BATCHES; i++) {
      empty.add(new Batch());
    }
    current = empty.remove();
  }

  /**
   * Runs a source on a thread of its own and plays its events to a sink on this one.
   *
   * @return what the source returned
   */
  public static <T> T decouple(EventSink sink, Source<T> source) throws IOException {
    AheadSink ahead = new AheadSink();
    FutureTask<T> decoding = new FutureTask<>(() -> {
      try {
        return source.sendTo(ahead);
      } finally {
        ahead.close();
      }
    });
    Thread thread = new Thread(decoding, "pawl-decode");
    thread.setDaemon(true);
    thread.start();
    try {
      ahead.playAll(sink);
      return decoding.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("reading was interrupted", e);
    } catch (ExecutionException e) {
      throw asThrown(e.getCause());
    } finally {
      thread.interrupt();
    }
  }

  private static IOException asThrown(Throwable cause) {
    if (cause instanceof RuntimeException failure) {
      throw failure;
    }
    if (cause instanceof Error error) {
      throw error;
    }
    return cause instanceof IOException failure ? failure : new IOException(cause);
  }

  private void playAll(EventSink sink) throws InterruptedException {
    Batch batch = full.take();
    while (batch != last) {
      batch.play(sink);
      batch.clear();
      empty.add(batch);
      batch = full.take();
    }
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

  private void close() {
    full.add(current);
    full.add(last);
  }

  /** The judging thread has given up. */
  private static final class Stopped extends RuntimeException {

    private static final long serialVersionUID = 1;

    Stopped() {
      super("decoding was stopped", null, false, false);
    }
  }
}
