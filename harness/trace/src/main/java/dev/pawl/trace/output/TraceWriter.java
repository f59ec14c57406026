package dev.pawl.trace.output;

import dev.pawl.engine.EventSink;
import java.io.Closeable;

/**
 * A trace being written; events go in as they go into the engine. Failures to write come as {@link
 * java.io.UncheckedIOException}.
 */
public interface TraceWriter extends EventSink, Closeable {

  /** Hands on what has been written so far, for a recording that must survive what comes next. */
  void flush();

  /**
   * States where the trace ends; nothing may follow.
   *
   * @param time nanoseconds, not before the last event
   */
  void end(long time);
}
