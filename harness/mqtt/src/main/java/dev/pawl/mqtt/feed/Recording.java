package dev.pawl.mqtt.feed;

import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.trace.csv.CsvWriter;
import dev.pawl.trace.output.TraceWriter;
import dev.pawl.trace.time.TimeScale;
import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;

/**
 * The merged stream as a trace file. If the medium fails, the file keeps every whole row that was written and ends there, recording stops
 * for good, and the reason and the number of events that came too late for it are kept.
 */
public final class Recording implements Closeable {

  private final RowFile file;
  private final TraceWriter writer;
  private String failure = "";
  private long rows;
  private long securedRows;
  private long missed;

  /** A recording into the file; its header is written at once. */
  public Recording(RowFile file, List<Signal> signals, TimeScale scale) {
    this.file = file;
    this.writer = new CsvWriter(file, signals, scale);
    secure();
  }

  void event(long time, int signal, long value) {
    if (failure.isEmpty()) {
      try {
        writer.event(time, signal, value, 0);
        rows++;
      } catch (UncheckedIOException e) {
        fail(e.getCause());
      }
    } else {
      missed++;
    }
  }

  /** Hands all rows to the file system. */
  public void secure() {
    if (failure.isEmpty() && (rows > securedRows || rows == 0)) {
      try {
        writer.flush();
        securedRows = rows;
      } catch (UncheckedIOException e) {
        fail(e.getCause());
      }
    }
  }

  private void fail(IOException cause) {
    missed += rows - securedRows;
    failure = cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
    file.cutToWholeRows();
  }

  /** Events that came after recording had ended. */
  public long missed() {
    return missed;
  }

  /** Why recording ended early; empty if it did not. */
  public Optional<String> failure() {
    return failure.isEmpty() ? Optional.empty() : Optional.of(failure);
  }

  /** States where the stream ends. */
  public void end(long time) {
    if (failure.isEmpty()) {
      try {
        writer.end(time);
        writer.flush();
      } catch (UncheckedIOException e) {
        fail(e.getCause());
      }
    }
  }

  @Override
  public void close() {
    try {
      if (failure.isEmpty()) {
        writer.close();
      } else {
        file.close();
      }
    } catch (IOException e) {
      fail(e);
    }
  }
}
