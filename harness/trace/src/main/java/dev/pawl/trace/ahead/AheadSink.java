package dev.pawl.trace.ahead;

import dev.pawl.engine.EventSink;
import java.io.IOException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;

/** The decoding of a trace on a thread of its own, for a sink that runs on the calling thread. */
public final class AheadSink {

  private static final int BATCH_SIZE = 1 << 13;

  private AheadSink() {}

  /** Something that produces events, on the decoding thread. */
  @FunctionalInterface
  public interface Source<T> {
    T sendTo(EventSink sink) throws IOException;
  }

  /**
   * Runs a source on a thread of its own and plays its events to a sink on this one.
   *
   * @return what the source returned
   */
  public static <T> T decouple(EventSink sink, Source<T> source) throws IOException {
    HandOver ahead = new HandOver(BATCH_SIZE);
    FutureTask<T> decoding = new FutureTask<>(() -> {
      try {
        return source.sendTo(ahead);
      } finally {
        ahead.end();
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

  static IOException asThrown(Throwable cause) {
    if (cause instanceof RuntimeException failure) {
      throw failure;
    }
    if (cause instanceof Error error) {
      throw error;
    }
    return cause instanceof IOException failure ? failure : new IOException(cause);
  }
}
