package dev.pawl.trace.ahead;

import dev.pawl.engine.EventSink;
import java.io.IOException;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;

/** A trace that is decoded on a thread of its own, and its events one after the other on another. */
final class Decoding<T> {

  private static final int BATCHES = 4;
  private static final int BATCH_SIZE = 1 << 12;
  private static final int TIME_ALONE = -1;

  /** Events in columns. */
  private static final class Batch {
    private final long[] times;
    private final int[] signals;
    private final long[] values;
    private final long[] lines;
    private int size;

    Batch(int capacity) {
      times = new long[capacity];
      signals = new int[capacity];
      values = new long[capacity];
      lines = new long[capacity];
    }
  }

  private final BlockingQueue<Batch> empty = new ArrayBlockingQueue<>(BATCHES);
  private final BlockingQueue<Batch> full = new ArrayBlockingQueue<>(BATCHES + 1);
  private final Batch end = new Batch(0);
  private final FutureTask<T> task;
  private final Thread thread;
  private Batch filling;
  private Batch current;
  private int at;

  private Decoding(AheadSink.Source<T> source) {
    for (int i = 0; i < BATCHES; i++) {
      empty.add(new Batch(BATCH_SIZE));
    }
    filling = empty.remove();
    task = new FutureTask<>(() -> {
      try {
        return source.sendTo(new Filling());
      } finally {
        full.add(filling);
        full.add(end);
      }
    });
    thread = new Thread(task, "pawl-merge");
    thread.setDaemon(true);
  }

  static <T> Decoding<T> begin(AheadSink.Source<T> source) {
    Decoding<T> decoding = new Decoding<>(source);
    decoding.thread.start();
    return decoding;
  }

  /** Moves on to the next event; false if there is none. */
  boolean next() throws InterruptedException {
    at++;
    while (current == null || at >= current.size) {
      if (current != null) {
        current.size = 0;
        empty.offer(current);
      }
      current = full.take();
      at = 0;
      if (current == end) {
        return false;
      }
    }
    return true;
  }

  /** The time of the event. */
  long time() {
    return current.times[at];
  }

  void send(EventSink sink) {
    if (current.signals[at] == TIME_ALONE) {
      sink.advanceTo(current.times[at]);
    } else {
      sink.event(current.times[at], current.signals[at], current.values[at], current.lines[at]);
    }
  }

  T result() throws IOException, InterruptedException {
    try {
      return task.get();
    } catch (ExecutionException e) {
      throw AheadSink.asThrown(e.getCause());
    }
  }

  void giveUp() {
    thread.interrupt();
  }

  /** The decoding thread's side. */
  private final class Filling implements EventSink {

    @Override
    public void event(long time, int signal, long value, long line) {
      if (filling.size == BATCH_SIZE) {
        handOver();
      }
      int place = filling.size++;
      filling.times[place] = time;
      filling.signals[place] = signal;
      filling.values[place] = value;
      filling.lines[place] = line;
    }

    @Override
    public void advanceTo(long time) {
      event(time, TIME_ALONE, 0, 0);
    }

    private void handOver() {
      try {
        full.put(filling);
        filling = empty.take();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new HandOver.Stopped();
      }
    }
  }
}
