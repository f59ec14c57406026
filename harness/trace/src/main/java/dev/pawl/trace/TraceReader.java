package dev.pawl.trace;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.intake.Progress;
import java.io.Closeable;
import java.io.IOException;

/** An opened trace. It can be read once, on one thread. */
public interface TraceReader extends Closeable {

  /** Whether times count from 1970 (UTC) rather than from a start of the trace's own; known from the first event on. */
  boolean calendar();

  /**
   * Reads the trace to its end. Whatever is wrong with the content is in the summary.
   *
   * @param sink takes the events, on the calling thread
   * @param progress told now and then how far reading has come; when decoding ahead, on the decoding thread
   * @throws IOException if the file cannot be read
   */
  TraceSummary readTo(EventSink sink, Progress progress) throws IOException;
}
